#pragma once
// Ownership of GSL objects, and GSL's process-wide error handler switched off once: the default
// handler aborts the program, and switching it around single calls is not thread-safe.
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

inline void use_status_codes() {
  static std::once_flag once;
  std::call_once(once, [] { gsl_set_error_handler_off(); });
}

}  // namespace areo::numeric
