// SPDX-License-Identifier: GPL-3.0-or-later
// A gravity that rose is the same one in rows that go through, and in a notebook that took them.
#include <fmt/format.h>
#include <gtest/gtest.h>

#include <memory>
#include <sstream>

#include "areo/entry/reading_resolver.hpp"
#include "areo/stream/alcohol_rows.hpp"
#include "areo/stream/correct_rows.hpp"
#include "areo/stream/import_table.hpp"
#include "areo/wording/batch.hpp"
#include "notebook/temporary.hpp"

namespace areo::stream {
namespace {

using Flags = std::vector<bool>;

// One batch, an original of 1.050 and what is read of it later, all at 20 °C with stem-1, which was
// never checked: its own error is within a division of 0.002, and the same in all of them.
class Rise : public notebook::TemporaryFolder {
 protected:
  Rise() : book_{path(), notebook::Open::create} {
    book_.add(notebook::hydrometer("stem-1"));
    notebook::BatchRecord b;
    b.name = "PT-1";
    b.started_at = moment_from_text("2026-03-01");
    book_.add(b);
  }
  [[nodiscard]] entry::ReadingResolver stem() const {
    entry::ReadingOptions with;
    with.instrument = "stem-1";
    return {
        std::make_shared<entry::NotebookOnDemand>([this] { return notebook::Notebook{path()}; }),
        with};
  }
  static Flags flagged(const std::string& csv, const StreamJob& job) {
    Flags all;
    std::istringstream in{csv};
    text::SaidOnce refused;
    run_stream(
        in, "rows.csv", job, {}, {.json = true},
        [&](std::string_view line) { all.push_back(line.find("jump up") != line.npos); }, refused);
    EXPECT_TRUE(refused.empty());
    return all;
  }
  [[nodiscard]] Flags by_alcohol(const std::vector<double>& shown) const {
    std::string csv = "batch,original,present,temperature\n";
    for (const double s : shown) csv += fmt::format("PT-1,1.050,{:.4f},20C\n", s);
    entry::ReadingResolver resolver = stem();
    return flagged(csv, alcohol_rows(resolver, {}, std::nullopt));
  }
  [[nodiscard]] Flags by_correct(const std::vector<double>& shown) const {
    std::string csv = "batch,original,original_temperature,reading,temperature\n";
    for (const double s : shown) csv += fmt::format("PT-1,1.050,20C,{:.4f},20C\n", s);
    entry::ReadingResolver resolver = stem();
    return flagged(csv, correct_rows(resolver, {}, {}));
  }
  Flags by_import(const std::vector<double>& shown) {
    std::string csv = "date,reading,temperature,stage\n2026-03-01T10:00Z,1.0500,20C,original\n";
    for (std::size_t i = 0; i < shown.size(); ++i)
      csv += fmt::format("2026-03-{:02}T10:00Z,{:.4f},20C,present\n", i + 5, shown[i]);
    std::istringstream in{csv};
    ImportPlan plan;
    plan.file = "rows.csv";
    plan.defaults.batch = "PT-1";
    plan.defaults.instrument = "stem-1";
    plan.rules = text::rules_as_typed({}, {});
    EXPECT_EQ(import_csv(in, book_, plan).noted, static_cast<int>(shown.size()) + 1);
    batch::Batch batch{book_, "PT-1"};
    Flags all;
    for (const batch::Point& p : batch.points())
      if (p.sample.first().stage == notebook::Stage::present)
        all.push_back(wording::jumped_up(batch, p));
    return all;
  }

  notebook::Notebook book_;
};

// 0.0018 is less than the ± of one reading on this stem, and more than that of the difference of
// two; 0.0008 is less than both.
TEST_F(Rise, IsTheSameInRowsAndInTheNotebook) {
  const std::vector<double> shown{1.0220, 1.0200, 1.0218, 1.0210, 1.0218};
  const Flags risen{false, false, true, false, false};
  EXPECT_EQ(by_alcohol(shown), risen);
  EXPECT_EQ(by_correct(shown), risen);
  EXPECT_EQ(by_import(shown), risen);
}

TEST_F(Rise, IsNoneWhileTheGravityFalls) {
  const std::vector<double> shown{1.0400, 1.0380, 1.0300, 1.0298};
  const Flags none(shown.size());
  EXPECT_EQ(by_alcohol(shown), none);
  EXPECT_EQ(by_correct(shown), none);
  EXPECT_EQ(by_import(shown), none);
}

}  // namespace
}  // namespace areo::stream
