// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// Is the law of propagation, which is linear, good enough for a model?
#include "areo/uncertainty/propagate.hpp"

namespace areo::uncertainty {

/// Fills `u_second_order` and adds warnings to `result`, which propagate() has made otherwise.
void check_linearity(const Inputs& inputs, const Model& model, Propagation& result);

}  // namespace areo::uncertainty
