// SPDX-License-Identifier: GPL-3.0-or-later
#include "areo/text/extra_field.hpp"

#include <fmt/format.h>

namespace areo::text {

std::string ExtraField::cell() const { return number ? fmt::format("{}", *number) : word; }

}  // namespace areo::text
