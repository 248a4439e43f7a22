// SPDX-License-Identifier: GPL-3.0-or-later
// What becomes of the rows of somebody's table.
#include <gtest/gtest.h>

#include <sstream>

#include "areo/core/error.hpp"
#include "areo/stream/import_table.hpp"
#include "notebook/temporary.hpp"

namespace areo::stream {
namespace {

class Import : public notebook::TemporaryFolder {
 protected:
  Import() : book_{path(), notebook::Open::create} {
    book_.add(notebook::hydrometer("stem-1"));
    notebook::BatchRecord b;
    b.name = "PT-1";
    b.started_at = moment_from_text("2026-03-01");
    batch_ = book_.add(b);
    plan_.file = "rows.csv";
    plan_.defaults.batch = "PT-1";
    plan_.rules = text::rules_as_typed({}, {});
  }
  ImportOutcome take(const std::string& csv) {
    std::istringstream in{csv};
    return import_csv(in, book_, plan_);
  }
  [[nodiscard]] std::size_t noted() const { return book_.readings(batch_).size(); }

  notebook::Notebook book_;
  notebook::Id batch_ = 0;
  ImportPlan plan_;
};

const std::string three =
    "date,reading,temperature\n2026-03-02,1.040,20C\n2026-03-03,1.0.3,20C\n2026-03-04,1.030,20C\n";

TEST_F(Import, SaysWhatBecameOfEachRow) {
  const ImportOutcome o = take(three);
  EXPECT_EQ(o.noted, 2);
  EXPECT_EQ(o.bad, 1);
  EXPECT_EQ(o.not_noted(), 1);
  EXPECT_EQ(noted(), 2U);
  ASSERT_EQ(o.refused.reported().size(), 1U);
  EXPECT_EQ(o.refused.reported().front().line, 3U);
  const ImportOutcome again = take(three);
  EXPECT_EQ(again.noted, 0);
  EXPECT_EQ(again.there, 2);
  EXPECT_EQ(noted(), 2U);
}

TEST_F(Import, AllOrNothingNotesNothing) {
  plan_.all_or_nothing = true;
  EXPECT_EQ(take(three).noted, 0);
  EXPECT_EQ(noted(), 0U);
}

TEST_F(Import, ADryRunOnlyLooks) {
  plan_.dry_run = true;
  EXPECT_EQ(take(three).good, 2);
  EXPECT_EQ(noted(), 0U);
}

TEST_F(Import, HoldsBackWhatIsFarFromWhatIsExpected) {
  const std::string leap =
      "date,reading,temperature,stage\n2026-03-02,1.040,20C,original\n2026-03-03,1.090,20C,"
      "present\n";
  EXPECT_EQ(take(leap).held, 1);
  EXPECT_EQ(noted(), 1U);
  plan_.yes = true;
  EXPECT_EQ(take(leap).held, 0);
  EXPECT_EQ(noted(), 2U);
}

TEST_F(Import, TellsEachFailureAtOnce) {
  std::vector<std::size_t> lines;
  plan_.on_failure = [&](const Error&, std::size_t line) { lines.push_back(line); };
  (void)take(three);
  EXPECT_EQ(lines, std::vector<std::size_t>{3});
}

TEST_F(Import, ObjectsAreRowsToo) {
  std::istringstream in{R"([{"date":"2026-03-02","reading":"1.040","temperature":"20C"}])"};
  EXPECT_EQ(import_json(in, true, book_, plan_).noted, 1);
}

}  // namespace
}  // namespace areo::stream
