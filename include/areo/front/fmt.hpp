// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// Uncertain values in fmt::format(): `fmt::format("{:>20}", drink.strength)`, with the alignment of
// strings. Apart, because areo does not ask its users to have fmt.
#include <fmt/format.h>

#include "areo/front/uncertain.hpp"

template <class T>
struct fmt::formatter<areo::Uncertain<T>> : fmt::formatter<std::string> {
  template <class Context>
  auto format(const areo::Uncertain<T>& v, Context& context) const {
    return fmt::formatter<std::string>::format(v.text(), context);
  }
};
