// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// What tables, cards and certificates have in common: where to, in which format, on which paper.
#include <string>
#include <vector>

#include "areo/core/unfinished_file.hpp"
#include "areo/document/document.hpp"
#include "command_line.hpp"
#include "output.hpp"

namespace areo::cli {

enum class PrintFormat { text, csv, markdown, html, pdf };

struct PrintOptions {
  std::string out, format, paper;
  Present present = Present::replaced;  ///< of an older file
};
/// @param formats  that it comes in, by their words: "text", "csv", "markdown", "html", "pdf"
void add_print_options(const Command& command, PrintOptions& options,
                       const std::vector<std::string>& formats);

/// By --format, else by the end of the file's name; text if there is neither.
/// @throws ParseError for a name that says nothing of it
[[nodiscard]] PrintFormat format_of(const PrintOptions& options);
/// A4 unless stated.
[[nodiscard]] document::Paper paper_of(const PrintOptions& options);
/// @param what  "a certificate"
/// @throws UsageError for CSV, of what is no table
void refuse_csv(const PrintOptions& options, const std::string& what);
/// To standard output, or to the file.
/// @throws Error{file} as publish::write_file() and publish::pdf()
void print_document(const document::Document& document, const PrintOptions& options);

/// @throws UsageError for a PDF without a file, for paper without sheets, and beside --json; and as
///         format_of()
void check_print_options(const PrintOptions& options, const Session& session);

}  // namespace areo::cli
