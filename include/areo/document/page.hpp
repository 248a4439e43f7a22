// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// A page in HTML that needs nothing else: no network, no script, no other file.
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace areo::document {

/// A text as HTML shows it: `<`, `>`, `&` and quotes escaped, control characters as visible marks.
[[nodiscard]] std::string html_text(std::string_view text);

/// A page for paper with a drawing and nothing else.
/// @param svg  as svg_of() makes it
[[nodiscard]] std::string picture_page(std::string_view title, std::string_view svg);

enum class Paper { a4, letter };

/// Type of a page for the wall.
struct WallType {
  double size_pt = 12;     ///< of its text; numbers and headline are larger
  double row_space = 0.1;  ///< above and below what stands in a row, over the size
};

/// How a page lies on sheets of paper.
struct PageSetup {
  /// Nothing: the printer's, and A4 as PDF.
  std::optional<Paper> paper{};
  bool landscape = false;  ///< with a stated paper only
  /// Stands at the head of every sheet, for what must not come apart: the number of a certificate.
  std::string running{};
  /// Large type, to be read from a step away: a card to hang by the jar.
  bool for_the_wall = false;
  WallType wall_type{};
  bool for_a_pen = false;  ///< cells are boxes, high enough to be filled in with a pen
};

/// What a reader should see first: lines of large type, and what belongs to them.
struct Headline {
  std::vector<std::string> lines;
  std::vector<std::string> below;
};

/// A page from top to bottom. Every text is taken as it is, and escaped. Light or dark as the
/// reader's device has it, in one column on a phone, and on paper of A4 or Letter.
class Page {
 public:
  /// @param title  of the page and its only heading of the first level
  explicit Page(std::string_view title, PageSetup setup = {});

  /// A heading of the second level, and what follows belongs to it.
  void section(std::string_view heading);
  /// A heading of the third level, below a section.
  void subsection(std::string_view heading);
  void paragraph(std::string_view text);
  /// What a reader should see first.
  void headline(const Headline& headline);
  /// Set apart, for cautions.
  void caution(std::string_view text);
  /// No items, no list.
  void list(const std::vector<std::string>& items);
  /// The first row names the columns; on a narrow screen each row becomes a block of its own.
  /// @param rows  of one length each, at least the first
  void table(std::string_view caption, const std::vector<std::vector<std::string>>& rows);
  /// @param svg  a drawing as svg_of() makes it; it becomes a part of the page
  /// @param half of the width, where there is room: two of them stand side by side
  void figure(std::string_view svg, std::string_view caption, bool half = false);
  /// Below everything.
  void footer(std::string_view text);

  /// The whole page.
  [[nodiscard]] std::string html() const;

 private:
  std::string title_, body_, footer_;
  PageSetup setup_;
};

}  // namespace areo::document
