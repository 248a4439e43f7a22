// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// Ownership of GSL objects, and status codes instead of GSL's error handler.
#include <gsl/gsl_errno.h>

#include <memory>
#include <mutex>

namespace areo::numeric {

template <auto Free>
struct Deleter {
  template <class T>
  void operator()(T* p) const noexcept {
    Free(p);
  }
};
template <class T, auto Free>
using Handle = std::unique_ptr<T, Deleter<Free>>;

/// While one exists, in any thread, GSL returns status codes; its handler, which by default aborts
/// the program, belongs to the process and is the host's again when the last one goes.
class StatusCodes {
 public:
  StatusCodes() {
    const std::scoped_lock lock{one_at_a_time()};
    if (users()++ == 0) of_the_host() = gsl_set_error_handler_off();
  }
  ~StatusCodes() {
    const std::scoped_lock lock{one_at_a_time()};
    if (--users() == 0) gsl_set_error_handler(of_the_host());
  }
  StatusCodes(const StatusCodes&) = delete;
  StatusCodes& operator=(const StatusCodes&) = delete;

 private:
  static std::mutex& one_at_a_time() {
    static std::mutex mutex;
    return mutex;
  }
  static int& users() {
    static int count = 0;
    return count;
  }
  static gsl_error_handler_t*& of_the_host() {
    static gsl_error_handler_t* handler = nullptr;
    return handler;
  }
};

}  // namespace areo::numeric
