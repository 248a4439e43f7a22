// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// What a refusal is like: an areo::Error that can be told to a person and to a program.
#include <nlohmann/json.hpp>

#include "areo/core/error.hpp"
#include "areo/wording/failure.hpp"
#include "invariant.hpp"

namespace areo::fuzz {

/// Whether bytes hold what a terminal would obey: control characters other than tab and line end.
[[nodiscard]] inline bool drives_terminal(std::string_view text) {
  for (std::size_t i = 0; i < text.size(); ++i) {
    const auto c = static_cast<unsigned char>(text[i]);
    const auto after = i + 1 < text.size() ? static_cast<unsigned char>(text[i + 1]) : 0U;
    if ((c < 0x20 && c != '\t' && c != '\n' && c != '\r') || c == 0x7F) return true;
    if (c == 0xC2 && after >= 0x80 && after < 0xA0) return true;
  }
  return false;
}

inline void check_refusal(const Error& e) {
  require(std::string_view{e.what()} != "", "a refusal says what is wrong");
  if (const auto* p = dynamic_cast<const ParseError*>(&e); p != nullptr && !p->text.empty())
    require(p->position <= p->text.size() && p->length <= p->text.size() - p->position,
            "what a refusal points at is within the text", p->text);
  require(!drives_terminal(wording::failure_text(e)), "a refusal drives no terminal");
  require(nlohmann::json::accept(wording::failure_json(e)), "a refusal can be told as JSON");
}

/// Whether something is accepted; an exception that is no areo::Error goes on, and is a finding.
template <class F>
[[nodiscard]] bool accepts(F&& act) {
  try {
    act();
    return true;
  } catch (const Error& e) {
    check_refusal(e);
    return false;
  }
}

}  // namespace areo::fuzz
