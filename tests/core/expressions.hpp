// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// Whether an expression of two types compiles. Honest for our own types only: operators of
// Boost.Units fail hard instead of saying no.

namespace areo {

template <class A, class B>
concept Adds = requires(A a, B b) {
  a + b;
};
template <class A, class B>
concept Subtracts = requires(A a, B b) {
  a - b;
};
template <class A, class B>
concept Multiplies = requires(A a, B b) {
  a* b;
};
template <class A, class B>
concept Compares = requires(A a, B b) {
  a < b;
};

}  // namespace areo
