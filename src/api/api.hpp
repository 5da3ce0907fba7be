// Every route of /api/v1, and the page: a request in, an answer out.
//
// Holds: no sockets, no clock, no files here; whatever changes comes in with `Lent`. An answer is what `render` writes
// of a use case of `app`; a status follows from the kind of error alone (status_of). One thread at a time may ask what
// needs a book.
#pragma once

#include <functional>
#include <span>
#include <string>

#include "api/http.hpp"
#include "app/book.hpp"
#include "app/transfer.hpp"
#include "ledger/exporter.hpp"
#include "web_assets/web_assets.hpp"

namespace undercroft::api {

// An open book with all that the routes do with it.
struct Cellar {
    app::Book& book;
    app::Transfer& transfer;
    ledger::Exporter& exporter;
};

enum class Which { kept, demo };

struct Lent {
    const tables::Tables& tables;
    std::string version;
    app::Surroundings surroundings;
    const Zone& zone;  // of this machine, for sums without a book
    std::span<const web::Asset> assets;
    // The book that is served, or the invented one, which is made when it is first asked for.
    std::function<Result<Cellar>(Which)> cellar;
    // A name with that ending for a file that is not there, in a folder of the server's own.
    std::function<Result<std::string>(const std::string& ending)> new_file;
    // A book or an export, out of its bytes; `name` is how errors call it.
    std::function<Result<ledger::BookCopy>(const std::string& bytes, const std::string& name)> read_copy;
};

// What a route takes from whoever serves it.
enum class Needs {
    nothing,  // answered at once
    book,     // asked one at a time
    time,     // a sum without a book that may take long
};

struct Manners {
    Needs needs = Needs::nothing;
    std::size_t most_body = 0;  // bytes
    bool tells_progress = false;
};

class Api {
public:
    explicit Api(Lent lent) : m_lent(std::move(lent)) {}

    // Before the body is read: what this request may send and what it needs. Of a request that no route takes, nothing.
    [[nodiscard]] Manners manners_of(const Request& head) const;
    [[nodiscard]] Answer answer(const Request& request, const Waiting& waiting) const;

private:
    Lent m_lent;
};

[[nodiscard]] int status_of(ErrorKind kind);
[[nodiscard]] Answer answer_of(const Error& error);
[[nodiscard]] Answer answer_of(const Error& error, int status);

}  // namespace undercroft::api
