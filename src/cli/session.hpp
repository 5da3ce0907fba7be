// One run of the program: the arguments after the common options were taken, and how answers leave.
#pragma once

#include <memory>
#include <optional>
#include <ostream>
#include <string>
#include <vector>

#include "app/book.hpp"
#include "cli/host.hpp"
#include "render/ages.hpp"
#include "render/begun.hpp"
#include "render/blending.hpp"
#include "render/blind.hpp"
#include "render/finish.hpp"
#include "render/gap.hpp"
#include "render/json.hpp"
#include "render/panel.hpp"
#include "render/quarter.hpp"
#include "render/shelf.hpp"
#include "render/tasting_words.hpp"
#include "render/text.hpp"
#include "render/transfer.hpp"

namespace undercroft::cli {

enum class Form { text, json };

// Exit codes; docs/cli.md lists them.
inline constexpr int k_ok = 0;
inline constexpr int k_bad_input = 2;
inline constexpr int k_not_found = 3;
inline constexpr int k_impossible = 4;
inline constexpr int k_storage = 5;
inline constexpr int k_outside_model = 6;
inline constexpr int k_our_bug = 70;

// The one table from kinds of error to exit codes.
[[nodiscard]] int exit_code_of(ErrorKind kind);

struct Session {
    Host& host;
    Form form = Form::text;
    std::string book_path;

    template <class View>
    void answer(const View& view) {
        host.out << (form == Form::json ? render::json_of(view) : render::text_of(view)) << std::flush;
    }
    // Words to the error stream; in JSON also to the output. Returns the exit code.
    int refuse(const Error& error);
    // Answers with what was found, or refuses; returns the exit code.
    template <class View>
    int give(const Result<View>& view) {
        if (!view) return refuse(view.error());
        answer(*view);
        return k_ok;
    }
};

// A book with what it needs to stay alive.
struct Opened {
    std::unique_ptr<Zone> zone;
    OpenBook file;
    std::unique_ptr<app::Book> book;
};

[[nodiscard]] Result<Opened> open_named_book(const Session& session, For use);
// The same over a file just created or opened, with surroundings of its own.
[[nodiscard]] Result<Opened> over(Host& host, OpenBook file, app::Surroundings surroundings);

// Where the book is: --book, or what the host names.
[[nodiscard]] Result<std::string> path_of_book(const Session& session);

}  // namespace undercroft::cli
