// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// The commands. Each set-up function adds one command to the tree; when the user chose it, it
// leaves what is to be done in `run`, which returns an exit code.
#include <functional>

#include "command_line.hpp"
#include "output.hpp"

namespace areo::cli {

using Run = std::function<int()>;

void setup_convert(const Command& app, const Session& session, Run& run);
void setup_correct(const Command& app, const Session& session, Run& run);
void setup_alcohol(const Command& app, const Session& session, Run& run);
void setup_refract(const Command& app, const Session& session, Run& run);
void setup_liquid(const Command& app, const Session& session, Run& run);
void setup_solution(const Command& app, const Session& session, Run& run);
void setup_instrument(const Command& app, const Session& session, Run& run);
void setup_calibrate(const Command& app, const Session& session, Run& run);
void setup_batch(const Command& app, const Session& session, Run& run);
void setup_reading(const Command& app, const Session& session, Run& run);
void setup_addition(const Command& app, const Session& session, Run& run);
void setup_at_bench(const Command& app, const Session& session, Run& run);
/// `export` and `backup`.
void setup_export(const Command& app, const Session& session, Run& run);
void setup_import(const Command& app, const Session& session, Run& run);
void setup_bottle(const Command& app, const Session& session, Run& run);
void setup_compare(const Command& app, const Session& session, Run& run);
void setup_trend(const Command& app, const Session& session, Run& run);
void setup_report(const Command& app, const Session& session, Run& run);
void setup_certificate(const Command& app, const Session& session, Run& run);
void setup_settings(const Command& app, const Session& session, Run& run);
void setup_table(const Command& app, const Session& session, Run& run);
/// Commands that give one result once more, below `budget`; it notes in the session what it wants.
void setup_budget(const Command& app, Session& session, Run& run);

}  // namespace areo::cli
