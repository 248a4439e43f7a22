// areo certificate: the certificate of a user's own calibration.
#include <fmt/format.h>

#include <algorithm>
#include <limits>
#include <memory>

#include "areo/core/error.hpp"
#include "areo/notebook/recompute.hpp"
#include "areo/report/json.hpp"
#include "areo/report/pdf.hpp"
#include "areo/report/text.hpp"
#include "bench.hpp"
#include "certificate.hpp"
#include "command.hpp"
#include "failure.hpp"
#include "usage.hpp"
#include "write_file.hpp"
#include "write_page.hpp"

namespace areo::cli {
namespace {

constexpr std::int64_t not_given = std::numeric_limits<std::int64_t>::min();

struct Options {
  std::string name, at, on, by, place, customer, out, paper;
  std::int64_t calibration = not_given;
  bool markdown = false;
};

enum class Format { html, pdf, markdown, text };

bool ends_in(const std::string& file, std::string_view end) {
  if (file.size() < end.size()) return false;
  return std::equal(end.begin(), end.end(), file.end() - static_cast<std::ptrdiff_t>(end.size()),
                    [](char a, char b) { return a == (b >= 'A' && b <= 'Z' ? b - 'A' + 'a' : b); });
}

Format format_of(const std::string& file) {
  if (report::says_pdf(file)) return Format::pdf;
  for (const auto& [end, format] : {std::pair{".html", Format::html},
                                    {".htm", Format::html},
                                    {".md", Format::markdown},
                                    {".txt", Format::text}})
    if (ends_in(file, end)) return format;
  throw Error{Errc::domain, fmt::format("'{}' does not say what to write", file),
              "let the name end in .html, .pdf, .md or .txt"};
}

report::Paper paper_of(const std::string& word) {
  return word == "Letter" ? report::Paper::letter : report::Paper::a4;
}

void check_options(const Options& o) {
  refuse_together(o.calibration != not_given, "--calibration", !o.at.empty(), "--at",
                  "name the calibration, or a day on which it was in force");
  refuse_together(o.markdown, "--markdown", !o.out.empty(), "--out",
                  "a file in Markdown: --out FILE.md");
  if (o.out.empty()) {
    if (!o.paper.empty())
      throw UsageError{"--paper without --out: nothing is printed", "say --out FILE.pdf"};
    return;
  }
  const Format format = format_of(o.out);
  if (!o.paper.empty() && format != Format::pdf && format != Format::html)
    throw UsageError{"--paper is about sheets", "say --out FILE.pdf, or FILE.html to print it"};
}

// What to do about an instrument that has no calibration.
std::string what_to_do(const notebook::Notebook& book, const notebook::InstrumentRecord& r) {
  const std::string& name = r.name();
  const auto checks = book.checks(r.id);
  if (!checks.empty())
    return fit(book, r, checks).consistent
               ? fmt::format("put its checks in force: areo calibrate fit {}", name)
               : fmt::format(
                     "its checks contradict each other: areo calibrate fit {} says which "
                     "one to repeat",
                     name);
  return fmt::format("check it first: areo calibrate {}, then areo calibrate fit {}",
                     r.thermometer() != nullptr ? fmt::format("ice {} READING", name)
                                                : fmt::format("water {} READING TEMP", name),
                     name);
}

notebook::CalibrationRecord chosen(const notebook::Notebook& book,
                                   const notebook::InstrumentRecord& instrument, const Options& o,
                                   Moment issued) {
  const std::string& name = instrument.name();
  const auto all = book.calibrations(instrument.id);
  if (all.empty())
    throw Error{Errc::domain, fmt::format("{} has no calibration to certify", name),
                what_to_do(book, instrument)};
  if (o.calibration != not_given) {
    for (const notebook::CalibrationRecord& r : all)
      if (r.id == o.calibration) return r;
    throw Error{Errc::domain, fmt::format("{} has no calibration {}", name, o.calibration),
                fmt::format("areo calibrate show {} lists them", name)};
  }
  const Moment at = o.at.empty() ? issued : past_day_end_from_text(o.at, now());
  if (auto r = book.in_force(instrument.id, at)) return *r;
  throw Error{Errc::domain, fmt::format("no calibration of {} was in force on {}", name, at.date()),
              fmt::format("the first came into force on {}", all.front().in_force_from.date())};
}

void write_lines(const std::string& path, const std::vector<std::string>& lines) {
  write_file(path, [&](std::ostream& out) {
    for (const std::string& text : lines) out << text << '\n';
  });
}

// @return why there are no pictures
std::string write(const Document& d, const Options& o) {
  switch (format_of(o.out)) {
    case Format::markdown: write_lines(o.out, markdown_of(d)); return "";
    case Format::text: write_lines(o.out, text_of(d)); return "";
    default: break;
  }
  const DocumentPage page = page_of(d, paper_of(o.paper));
  write_html(o.out, page.html);
  return page.no_pictures;
}

std::string written(const std::string& file) {
  const Format format = format_of(file);
  if (format == Format::pdf || format == Format::html) return page_written(file);
  return file + ": text that any editor opens";
}

int run_certificate(const Options& o, const Session& session) {
  check_options(o);
  if (!o.out.empty()) refuse_same(o.out, notebook_path(session), "the notebook");
  const Issue issue{o.on.empty() ? now() : past_day_end_from_text(o.on, now()), o.by, o.place,
                    o.customer, session.full};
  const notebook::Notebook book{notebook_path(session), notebook::Open::read};
  const notebook::InstrumentRecord instrument = book.instrument(o.name);
  const notebook::CalibrationRecord calibration = chosen(book, instrument, o, issue.on);
  const Certified c = certified(book, instrument, calibration, issue);
  if (issue.on < c.fitted.checks.back().made_at)
    throw Error{Errc::inconsistent,
                fmt::format("issued on {}, before its last check of {}", issue.on.date(),
                            c.fitted.checks.back().made_at.date()),
                "a certificate is made after the checks"};
  const Document d = certificate_document(c);
  const std::string missing = o.out.empty() ? "" : write(d, o);
  if (session.json) {
    raw_line(
        certificate_json(c, fmt::format(R"(,"file":{},"no_pictures":{})",
                                        o.out.empty() ? "null" : report::json_string(o.out),
                                        missing.empty() ? "null" : report::json_string(missing))));
    return done;
  }
  if (o.out.empty()) {
    for (const std::string& text : o.markdown ? markdown_of(d) : text_of(d)) line(text);
    return done;
  }
  line("certificate " + c.number);
  line(written(o.out));
  if (!missing.empty()) notes({"without pictures: " + missing});
  return done;
}

}  // namespace

void setup_certificate(const Command& app, const Session& session, Run& run) {
  const auto o = std::make_shared<Options>();
  auto c = app.add_subcommand("certificate", "the certificate of your own calibration, to print");
  c.add_option("name", o->name, "the instrument").required();
  c.add_option("--calibration", o->calibration,
               "an earlier one, as areo calibrate show numbers them")
      .type_name("N");
  c.add_option("--at", o->at, "the one in force on that day; on the day of issue unless stated")
      .type_name("DATE");
  c.add_option("--out", o->out, "write it to this file; an older one is replaced")
      .type_name("FILE.html|pdf|md|txt");
  c.add_flag("--markdown", o->markdown, "as Markdown instead of plain text");
  c.add_option("--paper", o->paper, "of a page; A4 unless stated")
      .type_name("PAPER")
      .one_of({"A4", "Letter"});
  c.add_option("--by", o->by, "who made the checks and answers for them").type_name("NAME");
  c.add_option("--place", o->place, "where they were made").type_name("TEXT");
  c.add_option("--for", o->customer, "for whom").type_name("NAME");
  c.add_option("--on", o->on, "day of issue; today unless stated").type_name("DATE");
  c.footer(
      "Examples:\n  areo certificate stem-1\n"
      "  areo certificate stem-1 --out stem-1.pdf --by 'the owner' --place 'kitchen'\n"
      "  areo certificate stem-1 --calibration 1 --markdown");
  c.callback([=, &session, &run] { run = [=, &session] { return run_certificate(*o, session); }; });
}

}  // namespace areo::cli
