// Wires clock, chance, zones and the store to the command line.
#include <sodium.h>
#include <unistd.h>

#include <algorithm>
#include <array>
#include <charconv>
#include <chrono>
#include <csignal>
#include <cstdlib>
#include <exception>
#include <filesystem>
#include <fstream>
#include <iostream>
#include <optional>
#include <sstream>
#include <string>
#include <string_view>
#include <vector>

#include "api/api.hpp"
#include "cli/run.hpp"
#include "cli/seeded.hpp"
#include "cli/session.hpp"
#include "main/cellars.hpp"
#include "main/system_zone.hpp"
#include "main/version.hpp"
#include "render/text.hpp"
#include "serve/server.hpp"
#include "store/book_file.hpp"
#include "store/digest.hpp"
#include "store/restore.hpp"
#include "tables/embedded.hpp"
#include "tables/tables.hpp"

namespace undercroft {
namespace {

Instant clock_now() {
    const auto since = std::chrono::system_clock::now().time_since_epoch();
    return {std::chrono::duration_cast<std::chrono::milliseconds>(since).count()};
}

std::string random16() {
    std::array<unsigned char, 16> bytes{};
    randombytes_buf(bytes.data(), bytes.size());
    return store::hex_of({reinterpret_cast<const char*>(bytes.data()), bytes.size()});
}

std::string environment(const char* name) {
    const char* value = std::getenv(name);
    return value == nullptr ? std::string{} : std::string(value);
}

Result<cli::OpenBook> opened(Result<std::unique_ptr<store::BookFile>> file) {
    if (!file) return Failure{std::move(file).error()};
    store::BookFile* book = file->get();
    return cli::OpenBook{std::move(*file), book, book, book};
}

Result<std::string> bytes_of_file(const std::string& path, std::size_t most) {
    std::error_code code;
    if (!std::filesystem::is_regular_file(path, code))
        return fail(ErrorKind::not_found, path, "There is no file " + path + ".");
    std::ifstream in(path, std::ios::binary);
    std::string bytes(std::min<std::size_t>(std::filesystem::file_size(path, code), most + 1), '\0');
    if (!in.read(bytes.data(), static_cast<std::streamsize>(bytes.size())))
        return fail(ErrorKind::storage, path, path + " could not be read.");
    return bytes;
}

Result<void> new_file(const std::string& path, const std::string& bytes) {
    namespace fs = std::filesystem;
    std::error_code code;
    if (fs::exists(path, code))
        return fail(ErrorKind::bad_input, path, "There is a file of that name already, and it is left as it is.", {},
                    "Name another, or move it away first.");
    const fs::path folder = fs::path(path).parent_path();
    if (!folder.empty() && !fs::is_directory(folder, code))
        return fail(ErrorKind::not_found, path, "There is no folder " + folder.string() + ".");
    const std::string part = path + ".part";
    {
        std::ofstream out(part, std::ios::binary | std::ios::trunc);
        out.write(bytes.data(), static_cast<std::streamsize>(bytes.size()));
        if (!out.flush()) {
            fs::remove(part, code);
            return fail(ErrorKind::storage, path, path + " could not be written.");
        }
    }
    fs::rename(part, path, code);
    if (code) return fail(ErrorKind::storage, path, path + " could not be written: " + code.message() + ".");
    return {};
}

// The clock, or the instant UNDERCROFT_NOW holds still at.
Result<std::function<Instant()>> clock() {
    const std::string text = environment("UNDERCROFT_NOW");
    if (text.empty()) return std::function<Instant()>(clock_now);
    TRY(const Instant still, parse_iso_instant(text));
    return std::function<Instant()>([still] { return still; });
}

// Chance, or the sequence UNDERCROFT_SEED begins.
Result<std::function<std::string()>> chance() {
    const std::string text = environment("UNDERCROFT_SEED");
    if (text.empty()) return std::function<std::string()>(random16);
    std::uint64_t seed = 0;
    const auto [end, code] = std::from_chars(text.data(), text.data() + text.size(), seed);
    if (code != std::errc{} || end != text.data() + text.size())
        return fail(ErrorKind::bad_input, "UNDERCROFT_SEED", "\"" + text + "\" is no whole number.");
    return cli::seeded_random16(seed);
}

// The invented cellar, written by the command that writes it anywhere.
Result<void> write_demo(const cli::Host& like, const std::string& path) {
    std::istringstream in;
    std::ostringstream out;
    std::ostringstream err;
    cli::Host host{.in = in,
                   .out = out,
                   .err = err,
                   .tables = like.tables,
                   .surroundings = like.surroundings,
                   .version = like.version,
                   .book = path,
                   .zone_here = like.zone_here,
                   .open_book = like.open_book,
                   .create_book = like.create_book,
                   .zone = like.zone,
                   .demo_scripts = like.demo_scripts};
    if (cli::run({"demo"}, host) == cli::k_ok) return {};
    return fail(ErrorKind::storage, "demo", "The invented cellar could not be made.", {{"it says", err.str()}});
}

Result<void> serve_book(const cli::Host& host, const cli::ServeOrder& order) {
    TRY(ServedBook kept, open_served(order.book, host.tables, host.surroundings));
    TRY(const std::unique_ptr<Zone> zone_here, system_zone(host.zone_here));
    Scratch scratch;
    std::optional<ServedBook> demo;
    const auto cellar = [&](api::Which which) -> Result<api::Cellar> {
        if (which == api::Which::kept) return kept.cellar();
        if (!demo) {
            TRY(const std::string path, scratch.new_file(".undercroft"));
            TRY_VOID(write_demo(host, path));
            TRY(ServedBook opened, open_served(path, host.tables, host.surroundings));
            demo = std::move(opened);
        }
        return demo->cellar();
    };
    const auto read_copy = [&](const std::string& bytes, const std::string& name) -> Result<ledger::BookCopy> {
        std::istringstream in(bytes);
        return store::read_export(in, name);
    };
    const api::Api api(api::Lent{.tables = host.tables,
                                 .version = host.version,
                                 .surroundings = host.surroundings,
                                 .zone = *zone_here,
                                 .assets = web::assets(),
                                 .cellar = cellar,
                                 .new_file = [&scratch](const std::string& ending) { return scratch.new_file(ending); },
                                 .read_copy = read_copy});
    return serve::serve(api, order.port, order.listening);
}

int start(const std::vector<std::string>& arguments) {
    if (sodium_init() < 0) throw std::runtime_error("no source of chance could be opened");  // every book needs one
    const auto tables = tables::load();
    const auto now = clock();
    const auto random = chance();
    for (const Error* error :
         {tables ? nullptr : &tables.error(), now ? nullptr : &now.error(), random ? nullptr : &random.error()})
        if (error != nullptr) {
            std::cerr << render::text_of(*error);
            return cli::exit_code_of(error->kind);
        }

    cli::Host host{
        .in = std::cin,
        .out = std::cout,
        .err = std::cerr,
        .tables = *tables,
        .surroundings = {*now, *random, store::commitment_of},
        .version = std::string(k_version),
        .book = environment("UNDERCROFT_BOOK"),
        .zone_here = name_of_zone_here(),
        .open_book =
            [](const std::string& path, cli::For use) {
                const bool asking = use == cli::For::asking;
                return opened(store::open_book(path, asking ? store::Access::read : store::Access::write));
            },
        .create_book = [](const std::string& path,
                          const ledger::BookFacts& facts) { return opened(store::create_book(path, facts)); },
        .zone = system_zone,
        .demo_scripts = {tables::embedded("demo.txt"), tables::embedded("demo_stair.txt"),
                         tables::embedded("demo_peat.txt")},
        .at_terminal = ::isatty(STDIN_FILENO) == 1,
        .restore = store::restore_book,
        .read_copy = store::read_copy,
        .read_file = bytes_of_file,
        .write_file = new_file};
    host.serve = [&host](const cli::ServeOrder& order) { return serve_book(host, order); };
    const int code = cli::run(arguments, host);
    std::cout.flush();
    if (code == cli::k_ok && !std::cout) {
        std::cerr << "The answer could not be written out; what was booked is booked.\n";
        return cli::k_storage;
    }
    return code;
}

}  // namespace
}  // namespace undercroft

int main(int count, char** values) {
    // Whoever reads our answers may stop reading: that ends a write, not the program in the middle of an act.
    std::signal(SIGPIPE, SIG_IGN);
    std::ios::sync_with_stdio(false);
    try {
        return undercroft::start(std::vector<std::string>(values + 1, values + count));
    } catch (const std::exception& bug) {
        std::cerr << "This is a mistake of the program, not yours: " << bug.what()
                  << "\nThe book holds whole sittings only; undercroft check proves it.\n";
    } catch (...) {
        std::cerr << "This is a mistake of the program, not yours.\n";
    }
    return undercroft::cli::k_our_bug;
}
