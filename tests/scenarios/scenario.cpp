#include "tests/scenarios/scenario.hpp"

#include <fcntl.h>
#include <signal.h>
#include <spawn.h>
#include <sys/wait.h>
#include <unistd.h>

#include <algorithm>
#include <array>
#include <chrono>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <sstream>
#include <thread>
#include <utility>

namespace undercroft::scenarios {
namespace {

// A command of the program takes a fraction of a second; under a sanitizer and on a busy machine a few.
constexpr std::chrono::seconds k_longest{60};

// PNG (ISO/IEC 15948) of one grey pixel.
const std::string k_one_pixel(
    "\211\120\116\107\015\012\032\012\000\000\000\015\111\110\104\122\000\000\000\001"
    "\000\000\000\001\010\000\000\000\000\072\176\233\125\000\000\000\012\111\104\101"
    "\124\170\234\143\150\000\000\000\202\000\201\167\315\162\266\000\000\000\000\111"
    "\105\116\104\256\102\140\202",
    67);

std::vector<std::string> words_of(const std::string& line) {
    std::vector<std::string> words;
    std::string word;
    bool in_word = false;
    char quote = '\0';
    for (const char c : line) {
        if (quote != '\0') {
            if (c == quote)
                quote = '\0';
            else
                word += c;
        } else if (c == '"' || c == '\'') {
            quote = c;
            in_word = true;
        } else if (c == ' ') {
            if (in_word) words.push_back(std::move(word));
            word.clear();
            in_word = false;
        } else {
            word += c;
            in_word = true;
        }
    }
    if (in_word) words.push_back(std::move(word));
    return words;
}

std::string text_of_file(const std::string& path) {
    std::ifstream stream(path, std::ios::binary);
    return {std::istreambuf_iterator<char>(stream), std::istreambuf_iterator<char>()};
}

std::vector<char*> pointers_to(std::vector<std::string>& texts) {
    std::vector<char*> pointers;
    for (std::string& text : texts) pointers.push_back(text.data());
    pointers.push_back(nullptr);
    return pointers;
}

}  // namespace

Scenario read_scenario(std::string_view text) {
    Scenario scenario;
    std::istringstream lines{std::string(text)};
    int number = 0;
    for (std::string line; std::getline(lines, line);) {
        ++number;
        const auto after = [&](std::size_t length) { return line.substr(std::min(length, line.size())); };
        if (line.empty() || line[0] == '#') continue;
        if (line.starts_with("$ ") || line.starts_with("@file ") || line.starts_with("@clock ") ||
            line.starts_with("@picture ") || line == "@newer") {
            Step& step = scenario.steps.emplace_back();
            step.line = number;
            if (line == "@newer")
                step.newer = true;
            else if (line.starts_with("@clock "))
                step.clock = after(7);
            else if (line.starts_with("@picture ")) {
                step.file = after(9);
                step.input = k_one_pixel;
            } else if (line[0] == '@')
                step.file = after(6);
            else
                step.command = words_of(after(2));
            continue;
        }
        if (scenario.steps.empty()) {
            scenario.mistake = "line " + std::to_string(number) + " comes before any command";
            return scenario;
        }
        Step& step = scenario.steps.back();
        if (line.starts_with("|"))
            step.input += after(2) + "\n";
        else if (line.starts_with("=> "))
            step.exit_code = std::atoi(after(3).c_str());
        else if (line.starts_with("> "))
            step.answers.push_back(after(2));
        else if (line.starts_with("! "))
            step.refusals.push_back(after(2));
        else if (line == "$same")
            step.same = true;
        else {
            scenario.mistake = "line " + std::to_string(number) + " is nothing a scenario knows: " + line;
            return scenario;
        }
    }
    return scenario;
}

Outcome run_program(const std::string& program, const std::vector<std::string>& arguments, const std::string& folder,
                    const std::string& input, const std::string& now) {
    // Files instead of pipes: nothing can fill up and stand still.
    const std::array<std::string, 3> names = {folder + "/.in", folder + "/.out", folder + "/.err"};
    std::ofstream(names[0], std::ios::binary) << input;

    posix_spawn_file_actions_t actions;
    posix_spawn_file_actions_init(&actions);
    posix_spawn_file_actions_addopen(&actions, 0, names[0].c_str(), O_RDONLY, 0);
    posix_spawn_file_actions_addopen(&actions, 1, names[1].c_str(), O_WRONLY | O_CREAT | O_TRUNC, 0600);
    posix_spawn_file_actions_addopen(&actions, 2, names[2].c_str(), O_WRONLY | O_CREAT | O_TRUNC, 0600);

    std::vector<std::string> argument_texts{program};
    argument_texts.insert(argument_texts.end(), arguments.begin(), arguments.end());
    // No seed: two commands of one scenario would draw the same sitting keys.
    std::vector<std::string> environment{"UNDERCROFT_BOOK=" + folder + "/book.undercroft", "UNDERCROFT_NOW=" + now,
                                         "TZ=UTC"};
    std::vector<char*> argument_pointers = pointers_to(argument_texts);
    std::vector<char*> environment_pointers = pointers_to(environment);

    Outcome outcome;
    pid_t child = 0;
    const int failed =
        posix_spawn(&child, program.c_str(), &actions, nullptr, argument_pointers.data(), environment_pointers.data());
    posix_spawn_file_actions_destroy(&actions);
    if (failed != 0) {
        outcome.err = "could not start " + program;
        return outcome;
    }
    int status = 0;
    const auto until = std::chrono::steady_clock::now() + k_longest;
    while (waitpid(child, &status, WNOHANG) == 0) {
        if (std::chrono::steady_clock::now() > until) {
            kill(child, SIGKILL);
            waitpid(child, &status, 0);
            break;
        }
        std::this_thread::sleep_for(std::chrono::milliseconds(2));
    }
    if (WIFEXITED(status)) outcome.exit_code = WEXITSTATUS(status);
    outcome.out = text_of_file(names[1]);
    outcome.err = text_of_file(names[2]);
    return outcome;
}

namespace fs = std::filesystem;

Stage::Stage(std::string program) : m_program(std::move(program)) {
    std::string pattern = (fs::temp_directory_path() / "undercroft-XXXXXX").string();
    if (mkdtemp(pattern.data()) != nullptr) m_folder = pattern;
}

Stage::~Stage() {
    std::error_code ignored;
    if (!m_folder.empty()) fs::remove_all(m_folder, ignored);
}

Outcome Stage::run(const std::vector<std::string>& arguments, const std::string& input) const {
    return run_program(m_program, arguments, m_folder, input, m_now);
}

Outcome Stage::play(const Step& step) {
    Outcome nothing;
    nothing.exit_code = 0;
    if (!step.file.empty()) {
        std::ofstream(m_folder + "/" + step.file, std::ios::binary) << step.input;
        return nothing;
    }
    if (!step.clock.empty()) {
        m_now = step.clock;
        return nothing;
    }
    if (step.newer) {
        // The schema step of a later program. SQLite keeps the user version big-endian at byte 60 of the file
        // (file format, section 1.3 "The Database Header").
        std::fstream stream(m_folder + "/book.undercroft", std::ios::binary | std::ios::in | std::ios::out);
        stream.seekp(60);
        stream.write("\0\0\x03\xe8", 4);
        nothing.exit_code = stream.good() ? 0 : -1;
        return nothing;
    }
    std::vector<std::string> arguments;
    for (std::size_t i = 1; i < step.command.size(); ++i) {
        std::string text = step.command[i];
        for (std::size_t at = 0; (at = text.find("%dir%")) != std::string::npos;) text.replace(at, 5, m_folder);
        arguments.push_back(std::move(text));
    }
    return run(arguments, step.input);
}

std::vector<std::string> scenario_names() {
    std::vector<std::string> names;
    for (const auto& entry : fs::directory_iterator(fs::path(UNDERCROFT_SOURCE_DIR) / "tests" / "scenarios"))
        if (entry.path().extension() == ".scenario") names.push_back(entry.path().stem().string());
    std::sort(names.begin(), names.end());
    return names;
}

std::string scenario_text(const std::string& name) {
    return text_of_file((fs::path(UNDERCROFT_SOURCE_DIR) / "tests" / "scenarios" / (name + ".scenario")).string());
}

}  // namespace undercroft::scenarios
