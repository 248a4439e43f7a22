// SPDX-License-Identifier: GPL-3.0-or-later
#include <areo/areo.hpp>
#include <iostream>

int main() { std::cout << areo::convert<areo::Plato>(areo::gravity(1.048)) << '\n'; }
