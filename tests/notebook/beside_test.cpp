// SPDX-License-Identifier: GPL-3.0-or-later
// Threads that read a notebook beside one that writes, each with a Notebook of its own. What they
// share is in the library alone; src/cmake/tsan.cmake looks for races there.
#include <fmt/format.h>
#include <gtest/gtest.h>

#include <array>
#include <atomic>
#include <deque>
#include <stdexcept>
#include <string>
#include <thread>

#include "areo/batch/batch.hpp"
#include "areo/notebook/recompute.hpp"
#include "batches.hpp"

namespace areo::notebook {
namespace {

constexpr std::size_t samples = 40, readings_of_one = 2;

void insist(bool holds, const std::string& what) {
  if (!holds) throw std::runtime_error{what};
}

class Beside : public Batches {
 protected:
  Beside() {
    ReadingRecord r = reading(pt1_, stem_, 1.048, "2026-03-02T10:00Z");
    r.stage = Stage::original;
    book_.add(std::span{&r, 1});
    book_.add(calibration(stem_, {book_.add(water_check(stem_, 1.001, "2026-03-01T10:00Z"))},
                          "2026-03-01T10:00Z"));
  }
  // A thread; what it throws is its failure.
  template <class Act>
  void start(Act act) {
    std::string& failure = failures_.emplace_back();
    threads_.emplace_back([act, &failure] {
      try {
        act();
      } catch (const std::exception& e) {
        failure = e.what();
      }
    });
  }
  // Again and again while the writer is at it, and once when it is done.
  template <class Act>
  void start_reader(Act act) {
    start([this, act] {
      const Notebook mine{path(), Open::read};
      for (bool last = false; !last;) {
        last = written_;
        act(mine);
      }
    });
  }
  void start_writer() {
    start([this] {
      const struct Done {
        std::atomic<bool>& is;
        ~Done() { is = true; }
      } done{written_};
      Notebook mine{path()};
      for (std::size_t i = 0; i < samples; ++i) {
        const double shown = 1.040 - 0.0005 * static_cast<double>(i);
        const std::string at = fmt::format("2026-03-{:02}T18:00Z", 3 + i % 20);
        std::array<ReadingRecord, readings_of_one> two;
        two.fill(reading(pt1_, stem_, shown, at.c_str()));
        mine.add(two);
      }
    });
  }
  void expect_no_failure() {
    for (std::thread& t : threads_) t.join();
    for (const std::string& failure : failures_) EXPECT_EQ(failure, "");
  }

 private:
  std::atomic<bool> written_{false};
  std::deque<std::string> failures_;
  std::deque<std::thread> threads_;
};

TEST_F(Beside, AWriterASampleIsSeenWholeOrNotAtAll) {
  std::atomic<std::size_t> most{0};
  start_writer();
  start_reader([&](const Notebook& mine) {
    const std::size_t seen = mine.readings(pt1_).size() - 1;  // without the original
    insist(seen % readings_of_one == 0, "half a sample");
    insist(seen >= most, "fewer readings than before");
    most = seen;
  });
  expect_no_failure();
  EXPECT_EQ(most, samples * readings_of_one);
}

TEST_F(Beside, AWriterEverythingIsComputedByEachThread) {
  start_writer();
  for (int i = 0; i < 2; ++i)
    start_reader([](const Notebook& mine) {
      batch::Batch batch{mine, "PT-1"};
      for (const batch::Point& p : batch.points()) insist(p.computed(), p.refused);
      const InstrumentRecord stem = mine.instrument("stem-1");
      (void)correction_in_force(mine, stem, day("2026-03-05T18:00Z"));
    });
  expect_no_failure();
}

TEST_F(Beside, AWriterACopyIsWhole) {
  std::atomic<int> copies{0};
  start_writer();
  start_reader([&](const Notebook& mine) {
    const std::string copy = path(fmt::format("copy-{}.db", ++copies));
    (void)mine.backup(copy);
    insist(Notebook{copy}.readings(pt1_).size() % readings_of_one == 1, "half a sample");
  });
  expect_no_failure();
}

}  // namespace
}  // namespace areo::notebook
