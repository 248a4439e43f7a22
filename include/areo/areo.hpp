// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// The front door of the library: readings with their units and instruments, the jobs that are done
// with them, and results that know their uncertainty. See docs/reference/cpp.md.
//
// Behind it are the rooms, one header an idea, for programs that need more: areo/physics,
// areo/measurement, areo/notebook, ...
#include "areo/core/error.hpp"
#include "areo/core/version.hpp"
#include "areo/front/calibrate.hpp"
#include "areo/front/dilution.hpp"
#include "areo/front/drink.hpp"
#include "areo/front/instruments.hpp"
#include "areo/front/jobs.hpp"
#include "areo/front/literals.hpp"
#include "areo/front/scales.hpp"
#include "areo/front/uncertain.hpp"
