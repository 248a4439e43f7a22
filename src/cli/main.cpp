// SPDX-License-Identifier: GPL-3.0-or-later
#include "app.hpp"

int main(int argc, char** argv) { return areo::cli::run_app(argc, argv); }
