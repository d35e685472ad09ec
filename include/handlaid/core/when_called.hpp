// What keeps headers cheap to include. A plain inline function costs every file that includes it: its body is compiled
// with all that it needs of vector, sort and the like, called or not. A template is compiled where it is called. So a
// function that does real work, but has nothing to be generic about, is written
//
//   template <When = When::called>
//   Plan make_plan(const Job& job);
//
// and called like any other: no argument is ever given for it.
#pragma once

namespace handlaid {

/// When a function's body is compiled.
enum class When { called };

namespace detail {

template <When, class T>
struct Later {
  using type = T;
};

}  // namespace detail

/// A type whose parts are compiled where the function is called: `Eigen::Matrix<later<when, double>, 3, 3>`.
template <When when, class T>
using later = typename detail::Later<when, T>::type;

}  // namespace handlaid
