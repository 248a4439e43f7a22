#include <cstdio>

#include "areo/core/version.hpp"
#include "areo/notebook/store.hpp"

int main() {
  using namespace areo;
  (void)std::remove("consumer.db");
  notebook::Notebook book{"consumer.db", notebook::Open::create};
  notebook::InstrumentRecord stem;
  stem.name = "stem";
  book.add(stem);
  std::printf("%s: %zu instrument\n", version.data(), book.instruments().size());
}
