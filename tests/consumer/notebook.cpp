// SPDX-License-Identifier: GPL-3.0-or-later
#include <cstdio>

#include "areo/core/moment.hpp"
#include "areo/core/version.hpp"
#include "areo/notebook/store.hpp"

int main() {
  using namespace areo;
  (void)std::remove("consumer.db");
  notebook::Notebook book{"consumer.db", notebook::Open::create};
  notebook::InstrumentRecord stem;
  stem.added_at = moment_from_text("2026-02-28T18:00Z");
  stem.instrument = instruments::Hydrometer{.name = "stem"};
  book.add(stem);
  std::printf("%s: %zu instrument\n", version.data(), book.instruments().size());
}
