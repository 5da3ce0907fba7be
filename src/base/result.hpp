// How a question can fail: one Error that a keeper can act on, and Result<T>.
//
// Holds: an Error owns all its text. Asserts and exceptions are for our own bugs
// and never answer bad input.
#pragma once

#include <string>
#include <utility>
#include <vector>

#include <tl/expected.hpp>

namespace undercroft {

// Each kind maps once to an exit code (cli) and, later, to an HTTP status (api).
enum class ErrorKind {
    bad_input,      // what was typed cannot be meant, or can mean two things
    not_found,      // no such vessel, lot, run, entry, file
    impossible,     // the book forbids it: more pulled than is there, a later entry breaks
    stale,          // the book has moved on since this was drafted
    outside_model,  // asked outside the range a formula is good for
    read_only,      // a newer book: it can be read, not written
    storage,        // disk, file, damage
};

// One line of evidence under an error: "held" / "205 L".
struct Fact {
    std::string label;
    std::string value;
    friend bool operator==(const Fact&, const Fact&) = default;
};

struct [[nodiscard]] Error {
    ErrorKind kind = ErrorKind::bad_input;
    std::string where;  // field, entry, vessel or file concerned; may be empty
    std::string what;   // one sentence: the value, the rule, what would be accepted
    std::vector<Fact> facts;
    std::string next_step;  // what the keeper can do now; may be empty
    friend bool operator==(const Error&, const Error&) = default;
};

template <class T>
using Result = tl::expected<T, Error>;

using Failure = tl::unexpected<Error>;

// fail(ErrorKind::bad_input, "volume", "-3 L is below zero; say how much there is.")
inline Failure fail(ErrorKind kind, std::string where, std::string what, std::vector<Fact> facts = {},
                    std::string next_step = {}) {
    return Failure{Error{kind, std::move(where), std::move(what), std::move(facts), std::move(next_step)}};
}

}  // namespace undercroft

#define UNDERCROFT_JOIN_(a, b) a##b
#define UNDERCROFT_JOIN(a, b) UNDERCROFT_JOIN_(a, b)
#define UNDERCROFT_TRY_(holder, declaration, expression)                                  \
    auto holder = (expression);                                                           \
    if (!holder) return ::tl::unexpected<::undercroft::Error>(std::move(holder).error()); \
    declaration = std::move(*holder)

// TRY(auto volume, parse_volume(text)); returns the Error to the caller when there is one.
#define TRY(declaration, expression) UNDERCROFT_TRY_(UNDERCROFT_JOIN(try_result_, __LINE__), declaration, expression)

// The same for a Result<void>.
#define TRY_VOID(expression)                                                                                    \
    do {                                                                                                        \
        auto try_void_result = (expression);                                                                    \
        if (!try_void_result) return ::tl::unexpected<::undercroft::Error>(std::move(try_void_result).error()); \
    } while (false)
