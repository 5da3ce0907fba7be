#include "cli/session.hpp"

namespace undercroft::cli {

int exit_code_of(ErrorKind kind) {
    switch (kind) {
        case ErrorKind::bad_input:
            return k_bad_input;
        case ErrorKind::not_found:
            return k_not_found;
        case ErrorKind::impossible:
            return k_impossible;
        case ErrorKind::stale:
            return k_impossible;
        case ErrorKind::read_only:
            return k_storage;
        case ErrorKind::storage:
            return k_storage;
        case ErrorKind::outside_model:
            return k_outside_model;
    }
    return k_our_bug;
}

int Session::refuse(const Error& error) {
    host.err << render::text_of(error) << std::flush;
    if (form == Form::json) host.out << render::json_of(error) << std::flush;
    return exit_code_of(error.kind);
}

Result<std::string> path_of_book(const Session& session) {
    if (!session.book_path.empty()) return session.book_path;
    if (!session.host.book.empty()) return session.host.book;
    return fail(ErrorKind::bad_input, "--book", "Which book? Nobody has said where it is.",
                {{"once", "--book cellar.undercroft"}, {"or always", "export UNDERCROFT_BOOK=cellar.undercroft"}},
                "undercroft init begins a new one.");
}

Result<Opened> over(Host& host, OpenBook file, app::Surroundings surroundings) {
    TRY(std::unique_ptr<Zone> zone, host.zone(file.journal->facts().zone));
    Opened opened{std::move(zone), std::move(file), nullptr};
    opened.book = std::make_unique<app::Book>(*opened.file.journal, opened.file.keepsafe, *opened.zone, host.tables,
                                              std::move(surroundings));
    return opened;
}

Result<Opened> open_named_book(const Session& session, For use) {
    TRY(const std::string path, path_of_book(session));
    TRY(OpenBook file, session.host.open_book(path, use));
    return over(session.host, std::move(file), session.host.surroundings);
}

}  // namespace undercroft::cli
