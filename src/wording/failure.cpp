// SPDX-License-Identifier: GPL-3.0-or-later
#include "areo/wording/failure.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <utility>

#include "areo/text/format.hpp"
#include "result_value.hpp"

namespace areo::wording {
namespace {

const char* word(Errc code) {
  switch (code) {
    case Errc::parse: return "parse";
    case Errc::domain: return "domain";
    case Errc::no_convergence: return "no_convergence";
    case Errc::inconsistent: return "inconsistent";
    case Errc::file: return "file";
    case Errc::store: return "store";
  }
  return "unknown";
}

// A caret has to stand below what it points at.
std::string caret(const ParseError& e) {
  const std::string_view text = e.text;
  const std::size_t at = std::min(e.position, text.size());
  const auto width = [](std::string_view part) {
    return text::display_width(text::printable(part));
  };
  const std::size_t length = std::max<std::size_t>(1, width(text.substr(at, e.length)));
  return fmt::format("  {}\n  {}^{}\n", text::printable(text),
                     std::string(width(text.substr(0, at)), ' '), std::string(length - 1, '~'));
}

std::string headline(std::string_view message, std::size_t columns) {
  return text::printed(fmt::format("areo: error: {}", message), columns);
}

std::string hint_line(std::string_view hint, std::size_t columns) {
  return hint.empty() ? "" : text::printed(fmt::format("hint: {}", hint), columns);
}

// The keys that every failure has.
text::Json failure_head(std::string_view code, std::string_view message, std::string_view hint) {
  return {{"code", code}, {"message", message}, {"hint", hint}};
}

}  // namespace

std::string failure_text(const Error& e, std::size_t columns) {
  std::string out = headline(e.what(), columns);
  if (const auto* p = dynamic_cast<const ParseError*>(&e); p != nullptr && !p->text.empty())
    out += caret(*p);
  return out + hint_line(e.hint, columns);
}

std::string failure_text(std::string_view message, std::string_view hint, std::size_t columns) {
  return headline(message, columns) + hint_line(hint, columns);
}

text::Json failure_value(const Error& e, std::size_t line, const std::string& note) {
  text::Json error = failure_head(word(e.code), e.what(), e.hint);
  if (line != 0) error["line"] = line;
  if (!note.empty()) error["note"] = note;
  if (const auto* p = dynamic_cast<const ParseError*>(&e)) error["column"] = p->position + 1;
  return {{"error", std::move(error)}};
}

std::string failure_json(const Error& e, std::size_t line, const std::string& note) {
  return text::dump(failure_value(e, line, note));
}

std::string failure_json(std::string_view code, std::string_view message, std::string_view hint) {
  return text::dump({{"error", failure_head(code, message, hint)}});
}

std::string warning_json(std::string_view message) {
  return text::dump({{"warning", {{"message", message}}}});
}

}  // namespace areo::wording
