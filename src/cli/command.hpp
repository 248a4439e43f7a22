#pragma once
// The commands. Each set-up function adds one command to the tree; when the user chose it, it
// leaves what is to be done in `run`, which returns an exit code.
#include <functional>

#include "output.hpp"

namespace CLI {  // NOLINT(readability-identifier-naming): the library's name
class App;
}

namespace areo::cli {

using Run = std::function<int()>;

void setup_convert(CLI::App& app, const Session& session, Run& run);
void setup_correct(CLI::App& app, const Session& session, Run& run);
void setup_alcohol(CLI::App& app, const Session& session, Run& run);
void setup_refract(CLI::App& app, const Session& session, Run& run);
void setup_liquid(CLI::App& app, const Session& session, Run& run);
void setup_solution(CLI::App& app, const Session& session, Run& run);
void setup_instrument(CLI::App& app, const Session& session, Run& run);
void setup_calibrate(CLI::App& app, const Session& session, Run& run);
void setup_batch(CLI::App& app, const Session& session, Run& run);
void setup_reading(CLI::App& app, const Session& session, Run& run);
void setup_addition(CLI::App& app, const Session& session, Run& run);
void setup_at_bench(CLI::App& app, const Session& session, Run& run);
/// `export` and `backup`.
void setup_export(CLI::App& app, const Session& session, Run& run);
void setup_import(CLI::App& app, const Session& session, Run& run);
void setup_table(CLI::App& app, const Session& session, Run& run);
/// Commands that give one result once more, below `budget`; it notes in the session what it wants.
void setup_budget(CLI::App& app, Session& session, Run& run);

}  // namespace areo::cli
