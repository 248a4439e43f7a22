#include "failure.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cstdio>
#include <string_view>

#include "areo/text/format.hpp"
#include "areo/text/json.hpp"
#include "output.hpp"

namespace areo::cli {
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

std::string hint_line(const std::string& hint) {
  return hint.empty() ? "" : line_text("hint: " + hint);
}

// The keys that every failure has; the object is left open.
std::string json_head(const char* code, const char* message, const std::string& hint) {
  return fmt::format(R"({{"error":{{"code":"{}","message":{},"hint":{})", code,
                     text::json_string(message), text::json_string(hint));
}

}  // namespace

Exit exit_code(const Error& e) {
  switch (e.code) {
    case Errc::parse:
    case Errc::domain:
    case Errc::inconsistent: return bad_value;
    case Errc::file:
    case Errc::store: return file;
    case Errc::no_convergence: return defect;
  }
  return defect;
}

std::string failure_text(const Error& e) {
  std::string out = line_text(fmt::format("areo: error: {}", e.what()));
  if (const auto* p = dynamic_cast<const ParseError*>(&e); p != nullptr && !p->text.empty())
    out += caret(*p);
  return out + hint_line(e.hint);
}

std::string failure_json(const Error& e, std::size_t line, const std::string& note) {
  const auto* p = dynamic_cast<const ParseError*>(&e);
  std::string out = json_head(word(e.code), e.what(), e.hint);
  if (line != 0) out += fmt::format(R"(,"line":{})", line);
  if (!note.empty()) out += fmt::format(R"(,"note":{})", text::json_string(note));
  if (p != nullptr) out += fmt::format(R"(,"column":{})", p->position + 1);
  return out + "}}";
}

std::string failure_text(const UsageError& e) {
  return line_text(fmt::format("areo: error: {}", e.what())) + hint_line(e.hint);
}

std::string failure_json(const UsageError& e) {
  return json_head("usage", e.what(), e.hint) + "}}";
}

void warn(const std::string& what, bool json) {
  const std::string text =
      json ? fmt::format("{{\"warning\":{{\"message\":{}}}}}\n", text::json_string(what))
           : line_text("areo: warning: " + what);
  std::fwrite(text.data(), 1, text.size(), stderr);
}

}  // namespace areo::cli
