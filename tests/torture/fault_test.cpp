// SPDX-License-Identifier: GPL-3.0-or-later
// A call to the disk fails, each in its turn: the notebook says so or copes, stays whole, and holds
// what it said it holds. With every change each fifth call fails, with AREO_TORTURE=5 each one.
#include <fmt/format.h>
#include <gtest/gtest.h>

#include <iostream>

#include "notebook/batches.hpp"
#include "notebook/filled.hpp"
#include "rounds.hpp"
#include "vfs.hpp"
#include "whole.hpp"

namespace areo::torture {
namespace {

using namespace notebook;  // NOLINT: it is all about it

// What a disk says that fails at this call; a full one says it at writes.
std::vector<int> codes_of(Call call) {
  switch (call) {
    case Call::open: return {SQLITE_CANTOPEN};
    case Call::remove: return {SQLITE_IOERR_DELETE};
    case Call::access: return {SQLITE_IOERR_ACCESS};
    case Call::read: return {SQLITE_IOERR_READ};
    case Call::write: return {SQLITE_IOERR_WRITE, SQLITE_FULL};
    case Call::truncate: return {SQLITE_IOERR_TRUNCATE};
    case Call::sync: return {SQLITE_IOERR_FSYNC};
    case Call::size: return {SQLITE_IOERR_FSTAT};
    case Call::lock: return {SQLITE_IOERR_LOCK};
    case Call::look_for_lock: return {SQLITE_IOERR_CHECKRESERVEDLOCK};
    case Call::map: return {SQLITE_IOERR_SHMMAP};
    case Call::map_lock: return {SQLITE_IOERR_SHMLOCK};
  }
  return {};
}

enum class Lasts { once, from_then_on };

class Fault : public TemporaryFolder {
 protected:
  using Check = std::function<void(bool accepted)>;

  // Lets each call of `act` fail in a folder that holds `files`, and looks at it afterwards.
  void each_call(const char* what, const Files& files, const std::function<void()>& act,
                 const Check& check) {
    std::vector<Call> calls;
    put(folder().string(), files);
    {
      const Interference between{[&](Call call) {
        calls.push_back(call);
        return SQLITE_OK;
      }};
      ASSERT_EQ(refusal(act), "accepted");
    }
    check(true);
    int faults = 0, accepted = 0;
    auto turn = seed();
    const auto tried = static_cast<unsigned>(one_of(5));
    for (const Lasts lasts : {Lasts::once, Lasts::from_then_on})
      for (std::size_t at = 0; at < calls.size(); ++at)
        for (const int code : codes_of(calls[at])) {
          if (++turn % tried != 0) continue;
          SCOPED_TRACE(fmt::format("{}: call {} of {}, {}, code {}{}", what, at + 1, calls.size(),
                                   word(calls[at]), code,
                                   lasts == Lasts::once ? "" : ", for good"));
          lasts_ = lasts;
          put(folder().string(), files);
          std::size_t n = 0;
          std::string said;
          {
            const Interference between{[&](Call call) {
              const std::size_t now = n++;
              if (now == at) return code;
              return lasts == Lasts::once || now < at ? SQLITE_OK : codes_of(call).front();
            }};
            said = refusal(act);
          }
          ++faults;
          accepted += static_cast<int>(said == "accepted");
          check(said == "accepted");
          if (HasFailure()) FAIL() << said;
        }
    std::cout << fmt::format(
        "{}: {} calls, {} faults, {} of them without consequence, {} refused "
        "but there\n",
        what, calls.size(), faults, accepted, refused_but_there_);
  }

  // The notebook is whole, and holds `after` if that was accepted, else `before`.
  void expect_either(bool accepted, const Rows& before, const Rows& after) {
    const Rows found = rows_of(Notebook{path(), Open::create});
    EXPECT_EQ(wrong_with(path(), schema_version), "");
    if (!accepted && found == after && before != after && lasts_ == Lasts::from_then_on) {
      ++refused_but_there_;  // it was written, and nobody could be asked whether
      return;
    }
    EXPECT_TRUE(found == (accepted ? after : before))
        << (accepted ? "accepted" : "refused") << ": " << found.size() << " rows, " << before.size()
        << " before, " << after.size() << " after";
  }

  // A notebook with everything in it.
  Files filled() {
    put(folder().string(), {});
    {
      Notebook book{path(), Open::create};
      fill(book);
    }
    rows_ = rows_of(Notebook{path(), Open::read});
    return files_in(folder().string());
  }

  Rows rows_;
  Lasts lasts_ = Lasts::once;
  int refused_but_there_ = 0;
};

TEST_F(Fault, WhileReadingsAreNoted) {
  const Files files = filled();
  const auto note = [&] {
    const ReadingRecord r = reading(1, 1, 1.031, "2026-03-05T18:00Z");
    Notebook book{path()};
    book.add(std::array{r, r});
  };
  put(folder().string(), files);
  note();
  const Rows after = rows_of(Notebook{path()});
  each_call("add", files, note, [&](bool accepted) { expect_either(accepted, rows_, after); });
}

TEST_F(Fault, WhileAnotherHasItOpen) {
  const Files files = filled();
  std::optional<Notebook> other;
  const auto note = [&] {
    const ReadingRecord r = reading(1, 1, 1.031, "2026-03-05T18:00Z");
    Notebook{path()}.add(std::array{r, r});
  };
  put(folder().string(), files);
  note();
  const Rows after = rows_of(Notebook{path()});
  // It was there before, and is there when the fault is over.
  each_call(
      "add beside another", files,
      [&] {
        if (!other) other.emplace(path());
        note();
      },
      [&](bool accepted) {
        expect_either(accepted, rows_, after);
        other.reset();
      });
}

TEST_F(Fault, WhileANotebookIsMade) {
  each_call(
      "create", {},
      [&] {
        Notebook{path(), Open::create}.add(hydrometer("stem-1"));
      },
      [&](bool accepted) {
        const Notebook book{path(), Open::create};
        EXPECT_EQ(wrong_with(path(), schema_version), "");
        const std::size_t found = book.instruments().size();
        if (!accepted && found == 1 && lasts_ == Lasts::from_then_on)
          ++refused_but_there_;
        else
          EXPECT_EQ(found, accepted ? 1u : 0u);
      });
}

TEST_F(Fault, WhileAnExportIsBroughtBack) {
  (void)filled();
  const Rows rows = rows_;
  each_call(
      "restore", {},
      [&] {
        Notebook book{path(), Open::create};
        EXPECT_EQ(book.restore(from(rows)).added, static_cast<std::int64_t>(rows.size()));
      },
      [&](bool accepted) { expect_either(accepted, {}, rows); });
}

TEST_F(Fault, WhileABackupIsMade) {
  const Files files = filled();
  each_call(
      "backup", files,
      [&] {
        (void)Notebook{path(), Open::read}.backup(path("backup.db"));
      },
      [&](bool accepted) {
        EXPECT_EQ(std::filesystem::exists(path("backup.db")), accepted);
        if (accepted) {
          EXPECT_TRUE(rows_of(Notebook{path("backup.db")}) == rows_);
          EXPECT_EQ(wrong_with(path("backup.db"), schema_version), "");
        }
        expect_either(accepted, rows_, rows_);
      });
}

TEST_F(Fault, WhileEverythingIsRead) {
  const Files files = filled();
  Rows found;
  each_call(
      "read", files,
      [&] {
        found.clear();
        found = rows_of(Notebook{path(), Open::read});
      },
      [&](bool accepted) {
        EXPECT_TRUE(found == (accepted ? rows_ : Rows{}));
        expect_either(accepted, rows_, rows_);
      });
}

TEST_F(Fault, WhileAnOlderNotebookIsBroughtUpToDate) {
  for (int version = 1; version < schema_version; ++version) {
    put(folder().string(), {});
    make_older(path(), version);
    const std::string rows = rows_of_older(path());
    const std::string copy = path(fmt::format("notebook.db.version-{}", version));
    each_call(
        fmt::format("version {}", version).c_str(), files_in(folder().string()),
        [&] { (void)Notebook{path()}; },
        [&](bool accepted) {
          const bool done = wrong_with(path(), schema_version).empty();
          EXPECT_TRUE(done || wrong_with(path(), version).empty());
          EXPECT_TRUE(done || !accepted);
          EXPECT_TRUE(!done || std::filesystem::exists(copy));
          if (std::filesystem::exists(copy)) {
            EXPECT_EQ(wrong_with(copy, version), "");
            EXPECT_EQ(rows_of_older(copy), rows);
          }
          EXPECT_EQ(refusal([&] { (void)Notebook{path()}; }), "accepted");
          EXPECT_EQ(rows_of_older(path()), rows);
        });
  }
}

// What the tests above would say of a notebook that takes a failure for a success.
TEST_F(Fault, ThatIsHushedUpIsNoticed) {
  (void)filled();
  const Rows before = rows_;
  const ReadingRecord r = reading(1, 1, 1.031, "2026-03-05T18:00Z");
  {
    const Interference between{[](Call call) { return call == Call::write ? pretend : SQLITE_OK; }};
    Notebook{path()}.add(std::array{r, r});
  }
  const std::string wrong = wrong_with(path(), schema_version);
  EXPECT_TRUE(!wrong.empty() || rows_of(Notebook{path()}).size() == before.size());
}

}  // namespace
}  // namespace areo::torture
