// SPDX-License-Identifier: GPL-3.0-or-later
// The power fails while somebody writes: what was acknowledged is there, what was being written is
// there or not, and nothing is half.
#include "power.hpp"

#include <fmt/format.h>
#include <gtest/gtest.h>

#include <iostream>
#include <optional>

#include "acts.hpp"
#include "notebook/filled.hpp"
#include "rounds.hpp"
#include "whole.hpp"

namespace areo::torture {
namespace {

using namespace notebook;  // NOLINT: it is all about it

// Usually SQLite moves readings from the -wal into the file every 1000 pages; here so often that
// the power goes meanwhile too.
int move_often(sqlite3* db, char**, const void*) { return sqlite3_wal_autocheckpoint(db, 20); }

int honest(Call) { return SQLITE_OK; }
int forgetful(Call call) { return call == Call::sync ? pretend : SQLITE_OK; }

class PowerCut : public TemporaryFolder {
 protected:
  PowerCut() { sqlite3_auto_extension(reinterpret_cast<void (*)()>(move_often)); }
  ~PowerCut() override { sqlite3_cancel_auto_extension(reinterpret_cast<void (*)()>(move_often)); }

  bool makes_backups_ = false;

  // What was wrong, of so many power cuts in notebooks that each went through 20 at most.
  std::vector<std::string> wrong_of(int cuts, const Answer& disk) {
    std::vector<std::string> all;
    for (int cut = 0; cut < cuts; ++cut) {
      if (cut % 20 == 0) begin_anew();
      const std::string wrong = wrong_after_a_cut(disk);
      if (wrong.empty()) continue;
      all.push_back(fmt::format("seed {}, cut {}: {}", seed(), cut, wrong));
      begin_anew();
    }
    std::cout << fmt::format(
        "{} power cuts, {} acts acknowledged, {} acts interrupted and {} of them there, {} backups "
        "acknowledged; wrong: {}\n",
        cuts, acknowledged_, interrupted_, there_, backups_, all.size());
    return all;
  }

 private:
  void begin_anew() {
    put(folder().string(), {});
    sure_ = maybe_ = {};
  }

  std::string wrong_after_a_cut(const Answer& answer) {
    std::map<std::string, Rows> copies;
    std::string begun_copy;
    Files left;
    {
      const Folder elsewhere;
      Notebook expected{elsewhere.path() / "expected.db", Open::create};
      expected.restore(from(sure_));
      Disk disk{folder().string()};
      Power power{disk, chance_, static_cast<int>(1 + chance_() % 150)};
      const Interference between{[&](Call call) {
                                   const int code = power.answer(call);
                                   return code == SQLITE_OK ? answer(call) : code;
                                 },
                                 &disk};
      try {
        std::optional<Notebook> book;
        while (!power.off())
          if (!book || chance_() % 12 == 0) {
            book.reset();
            book.emplace(path(), Open::create);
          } else if (makes_backups_ && chance_() % 8 == 0) {
            begun_copy = path(fmt::format("backup-{}.db", copies.size()));
            book->backup(begun_copy);
            if (!power.off()) copies[begun_copy] = sure_;
          } else {
            const Act act = acted_on(expected);
            act(*book);
            if (power.off()) break;
            sure_ = maybe_;
            ++acknowledged_;
          }
      } catch (const Error& e) {
        EXPECT_TRUE(power.off()) << e.what();
        EXPECT_EQ(e.code, Errc::store) << e.what();
      }
      left = power.files();
    }
    put(folder().string(), left);
    backups_ += static_cast<int>(copies.size());
    std::string wrong = wrong_now();
    for (const auto& [copy, rows] : copies)
      if (wrong.empty()) wrong = wrong_copy(copy, rows);
    if (wrong.empty() && !copies.contains(begun_copy) && std::filesystem::exists(begun_copy))
      wrong = wrong_copy(begun_copy, sure_);
    keep_only_the_notebook();
    return wrong;
  }

  // Something that was done there, and maybe_ what it makes of the notebook.
  Act acted_on(Notebook& expected) {
    const Aside meanwhile;
    Act act = something(expected, chance_);
    act(expected);
    maybe_ = rows_of(expected);
    return act;
  }

  // Who opens it first has to put it in order: areo and others by turns.
  std::string wrong_now() {
    if (!sure_.empty() && chance_() % 2 == 0)
      if (std::string wrong = wrong_with(path(), schema_version); !wrong.empty()) return wrong;
    try {
      const Rows found = rows_of(Notebook{path(), Open::create});
      if (found != sure_ && found != maybe_)
        return fmt::format("{} rows, of {} that are sure", found.size(), sure_.size());
      interrupted_ += static_cast<int>(sure_ != maybe_);
      there_ += static_cast<int>(found != sure_);
      sure_ = maybe_ = found;
    } catch (const Error& e) {
      return e.what();
    }
    return wrong_with(path(), schema_version);
  }

  static std::string wrong_copy(const std::string& copy, const Rows& rows) {
    try {
      if (rows_of(Notebook{copy, Open::read}) == rows) return wrong_with(copy, schema_version);
    } catch (const Error& e) {
      return std::string{"a backup: "} + e.what();
    }
    return copy + " lacks rows";
  }

  void keep_only_the_notebook() {
    Files files = files_in(folder().string());
    std::erase_if(files, [](const auto& f) { return !f.first.starts_with("notebook.db"); });
    put(folder().string(), files);
  }

  Chance chance_{seed()};
  Rows sure_, maybe_;  // acknowledged; if what was being done when the power went is there too
  int acknowledged_ = 0, interrupted_ = 0, there_ = 0, backups_ = 0;
};

TEST_F(PowerCut, LosesNothingThatWasAcknowledged) {
  EXPECT_EQ(wrong_of(rounds(120), honest), std::vector<std::string>{});
}

TEST_F(PowerCut, LosesNoBackupThatWasAcknowledged) {
  makes_backups_ = true;
  EXPECT_EQ(wrong_of(rounds(80), honest), std::vector<std::string>{});
}

TEST_F(PowerCut, OnADiskThatForgetsIsNoticed) { EXPECT_GT(wrong_of(60, forgetful).size(), 10u); }

}  // namespace
}  // namespace areo::torture
