// SPDX-License-Identifier: GPL-3.0-or-later
#include "open_notebook.hpp"

#include <sys/stat.h>

#include <csignal>

#include "failure.hpp"

namespace areo::cli {
namespace {

// What is written from a notebook that only its owner may read is the owner's alone, too.
void keep_private(const std::string& notebook) {
  struct stat there {};
  if (::stat(notebook.c_str(), &there) != 0) return;
  const mode_t mask = ::umask(077);
  const mode_t group = (there.st_mode & S_IRGRP) == 0 ? S_IRWXG : 0;
  const mode_t others = (there.st_mode & S_IROTH) == 0 ? S_IRWXO : 0;
  ::umask(mask | group | others);
}

}  // namespace

std::string notebook_path(const Session& session) {
  return session.notebook.empty() ? notebook::default_path() : session.notebook;
}

notebook::Notebook open_notebook(const Session& session, notebook::Open how) {
  keep_private(notebook_path(session));
  return notebook::Notebook{
      notebook_path(session),
      how,
      {[json = session.json](const std::string& what) { warn(what + "; it is passed over", json); },
       [noted = session.noted] {
         *noted = true;
         // From now on a reader that is gone is told, and ends nothing.
         std::signal(SIGPIPE, SIG_IGN);
       }}};
}

entry::SharedNotebook notebook_to_read(const Session& session) {
  return std::make_shared<entry::NotebookOnDemand>(
      [&session] { return open_notebook(session, notebook::Open::read); });
}

}  // namespace areo::cli
