// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/failure.hpp"

#include <gtest/gtest.h>

namespace areo::cli {
namespace {

TEST(ExitCode, SaysWhatToLookAt) {
  EXPECT_EQ(exit_code(Error{Errc::parse, ""}), 3);
  EXPECT_EQ(exit_code(Error{Errc::domain, ""}), 3);
  EXPECT_EQ(exit_code(Error{Errc::inconsistent, ""}), 3);
  EXPECT_EQ(exit_code(Error{Errc::file, ""}), 4);
  EXPECT_EQ(exit_code(Error{Errc::store, ""}), 4);
  EXPECT_EQ(exit_code(Error{Errc::no_convergence, ""}), 70);
}

TEST(UsageError, HasTheShapeOfEveryFailure) {
  const UsageError e{"--sugar and two gravities cannot go together", "leave one out"};
  EXPECT_EQ(failure_text(e),
            "areo: error: --sugar and two gravities cannot go together\nhint: leave one out\n");
  EXPECT_EQ(failure_json(e),
            R"({"error":{"code":"usage","message":"--sugar and two gravities cannot go together",)"
            R"("hint":"leave one out"}})");
  EXPECT_EQ(failure_text(UsageError{"a command is missing", ""}),
            "areo: error: a command is missing\n");
}

}  // namespace
}  // namespace areo::cli
