// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// What a command prints below `areo budget`: where the uncertainty of its result comes from.
#include <string>

#include "areo/measurement/alcohol.hpp"
#include "areo/wording/strength.hpp"
#include "output.hpp"

namespace areo::cli {

/// Of the quantity that --of names; the first unless stated.
/// @param headline  what the command itself would begin with
/// @return exit code
/// @throws ParseError for an invalid target, Error{domain} for a quantity that the result lacks, or
///         that has no uncertainty
int print_budget(const measurement::Result& result, const std::string& headline,
                 const Session& session, const std::string& state = "");
/// A strength without a figure has no budget: says why, and is a "no".
int print_strength_budget(const measurement::AlcoholResult& a, const wording::StrengthWords& words,
                          const Session& session);

}  // namespace areo::cli
