// SPDX-License-Identifier: GPL-3.0-or-later
// The power fails while an older notebook is brought up to date: it is as before or as after, and
// the copy of what it was is there before anything changes.
#include <fmt/format.h>
#include <gtest/gtest.h>

#include <iostream>

#include "areo/notebook/store.hpp"
#include "power.hpp"
#include "rounds.hpp"
#include "whole.hpp"

namespace areo::torture {
namespace {

using notebook::make_older;
using notebook::Notebook;
using notebook::schema_version;

class PowerCutOfOlder : public notebook::TemporaryFolder {
 protected:
  PowerCutOfOlder() {
    for (int version = 1; version < schema_version; ++version) {
      put(folder().string(), {});
      make_older(path(), version);
      older_.push_back({version, files_in(folder().string()), rows_of_older(path()), 0});
      Disk disk{folder().string()};
      Power power{disk, chance_, Power::never};
      const Interference between{[&](Call call) { return power.answer(call); }, &disk};
      (void)Notebook{path()};
      older_.back().calls = power.calls();
    }
  }

  // What was wrong, of so many power cuts.
  std::vector<std::string> wrong_of(int cuts, int sync) {
    std::vector<std::string> all;
    for (int cut = 0; cut < cuts; ++cut) {
      const Older& older = older_[static_cast<std::size_t>(cut) % older_.size()];
      const std::string wrong = wrong_after_a_cut(older, sync);
      if (!wrong.empty())
        all.push_back(
            fmt::format("seed {}, cut {}, version {}: {}", seed(), cut, older.version, wrong));
    }
    std::cout << fmt::format("{} power cuts, {} left the older version, {} a copy; wrong: {}\n",
                             cuts, as_before_, copies_, all.size());
    return all;
  }

 private:
  struct Older {
    int version;
    Files files;
    std::string rows;
    int calls;  // that change the disk while it is brought up to date
  };

  std::string wrong_after_a_cut(const Older& older, int sync) {
    put(folder().string(), older.files);
    bool acknowledged = false;
    Files left;
    {
      Disk disk{folder().string()};
      Power power{disk, chance_,
                  static_cast<int>(1 + chance_() % static_cast<unsigned>(older.calls + 1))};
      const Interference between{[&](Call call) {
                                   const int code = power.answer(call);
                                   return code == SQLITE_OK && call == Call::sync ? sync : code;
                                 },
                                 &disk};
      try {
        const Notebook book{path()};
        acknowledged = !power.off();
        power.fail();
      } catch (const Error& e) {
        EXPECT_EQ(e.code, Errc::store) << e.what();
      }
      power.fail();
      left = power.files();
    }
    put(folder().string(), left);
    return wrong_now(older, acknowledged);
  }

  std::string wrong_now(const Older& older, bool acknowledged) {
    const bool done = wrong_with(path(), schema_version).empty();
    if (!done) {
      ++as_before_;
      if (std::string wrong = wrong_with(path(), older.version); !wrong.empty()) return wrong;
      if (acknowledged) return "it was up to date, and is not";
    }
    const std::string copy = path(fmt::format("notebook.db.version-{}", older.version));
    if (std::filesystem::exists(copy)) {
      ++copies_;
      if (std::string wrong = wrong_with(copy, older.version); !wrong.empty()) return wrong;
      if (rows_of_older(copy) != older.rows) return "the copy has other rows";
    } else if (done) {
      return "brought up to date without a copy";
    }
    try {
      (void)Notebook{path()};
    } catch (const Error& e) {
      return e.what();
    }
    return rows_of_older(path()) == older.rows ? wrong_with(path(), schema_version)
                                               : "it has other rows";
  }

  Chance chance_{seed()};
  std::vector<Older> older_;
  int as_before_ = 0, copies_ = 0;
};

TEST_F(PowerCutOfOlder, LeavesItAsBeforeOrAsAfterAndTheCopyWhole) {
  EXPECT_EQ(wrong_of(rounds(120), SQLITE_OK), std::vector<std::string>{});
}

TEST_F(PowerCutOfOlder, OnADiskThatForgetsIsNoticed) {
  EXPECT_GT(wrong_of(60, pretend).size(), 5u);
}

}  // namespace
}  // namespace areo::torture
