// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// Equality to the last bit with a quantity of the rooms behind the front door.
#include <gtest/gtest.h>

#include "areo/front/uncertain.hpp"
#include "areo/measurement/result.hpp"

namespace areo {

template <class T>
void expect_same(const Uncertain<T>& front, const uncertainty::Value& inner) {
  EXPECT_EQ(front.evidence().value.estimate, inner.estimate);
  EXPECT_EQ(front.evidence().value.u, inner.u);
  EXPECT_EQ(front.degrees_of_freedom(), inner.degrees_of_freedom);
}
template <class T>
void expect_same(const Uncertain<T>& front, const measurement::Result& inner, const char* key) {
  SCOPED_TRACE(key);
  expect_same(front, inner.at(key).value);
}

}  // namespace areo
