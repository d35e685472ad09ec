// Composition: `value | stage` applies, `stage | stage` is a stage, `apply(stage, value, work)` runs with threads and
// progress. To write a stage of your own: an aggregate whose members are its options, with `using is_stage = void;` and
// a const call operator. It may take
// `(value, const Work&)` as well; then `apply` gives it the threads and progress of the run.
#pragma once

#include <type_traits>
#include <utility>

#include "handlaid/core/work.hpp"

namespace handlaid {

/// A step of a pipeline: marked by the alias, because a base class would spoil designated initialisers.
template <class S>
concept Stage = requires { typename std::remove_cvref_t<S>::is_stage; };

/// What flows through a pipeline: anything that is not a stage.
template <class V>
concept Value = !Stage<V>;

/// The stage takes the value. To see which concept a stage asks for, call it: `stage(value)`.
template <class S, class V>
concept Accepts =
    Stage<S> && requires(const std::remove_cvref_t<S>& stage, V&& value) { stage(std::forward<V>(value)); };

/// The stage takes the value and wants the threads and progress of the run.
template <class S, class V>
concept AcceptsWork = Stage<S> && requires(const std::remove_cvref_t<S>& stage, V&& value, const Work& work) {
  stage(std::forward<V>(value), work);
};

/// What a stage makes of a value.
template <class S, class V>
  requires Accepts<S, V>
using Applied = decltype(std::declval<const std::remove_cvref_t<S>&>()(std::declval<V>()));

/// Applies a stage with the threads and progress of `work`; `value | stage` is the same with `Work{}`.
template <class S, class V>
  requires Accepts<S, V>
constexpr auto apply(const S& stage, V&& value, const Work& work) {
  if constexpr (AcceptsWork<S, V>) {
    return stage(std::forward<V>(value), work);
  } else {
    return stage(std::forward<V>(value));
  }
}

/// Two stages, one after the other; itself a stage, so a whole pipeline can be named and stored.
template <Stage First, Stage Second>
struct Then {
  using is_stage = void;
  First first = {};
  Second second = {};

  template <class V>
    requires(Accepts<First, V> && Accepts<Second, Applied<First, V>>)
  constexpr auto operator()(V&& value) const {
    return second(first(std::forward<V>(value)));
  }
  template <class V>
    requires(Accepts<First, V> && Accepts<Second, Applied<First, V>>)
  constexpr auto operator()(V&& value, const Work& work) const {
    return apply(second, apply(first, std::forward<V>(value), work), work);
  }
};

/// Never made: its name in a compiler's message says which stage refuses which value, however long the pipeline.
template <class S, class V>
struct Refusal {
  using type = Refusal;
};
template <class First, class Second, class V>
struct Refusal<Then<First, Second>, V> : Refusal<First, V> {};
template <class First, class Second, class V>
  requires Accepts<First, V>
struct Refusal<Then<First, Second>, V> : Refusal<Second, Applied<First, V>> {};

// The two must have as many parameters as each other, or neither would be the more constrained one. The type is named,
// not deduced, so that a pipeline inside a template is not compiled before that template is called.
template <class V, class S, class Refused = void>
  requires(Value<V> && Accepts<S, V>)
constexpr std::remove_cvref_t<Applied<S, V>> operator|(V&& value, const S& stage) {
  return stage(std::forward<V>(value));
}
template <class V, class S, class Refused = typename Refusal<S, V>::type>
  requires(Value<V> && Stage<S>)
constexpr void operator|(V&&, const S&) = delete;  // handlaid: the stage does not accept the value, see Refused

template <class First, class Second>
  requires(Stage<First> && Stage<Second>)
constexpr auto operator|(First first, Second second) {
  return Then<First, Second>{std::move(first), std::move(second)};
}

template <class S, class F>
  requires(Stage<S> && Value<F>)
constexpr void operator|(const S&, const F&) = delete;  // handlaid: what follows the stage is none; wrap it in step(…)

/// Makes a stage of any callable, a lambda or a foreign function object: `raster | step([](auto r) { … })`.
template <class F>
struct Step {
  using is_stage = void;
  F function;
  template <class V>
    requires std::is_invocable_v<const F&, V>
  constexpr auto operator()(V&& value) const {
    return function(std::forward<V>(value));
  }
};
template <class F>
constexpr auto step(F function) {
  return Step<F>{std::move(function)};
}

}  // namespace handlaid
