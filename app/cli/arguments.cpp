// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/cli/arguments.h"

#include "core/units/quantity_text.h"

#include <algorithm>
#include <charconv>
#include <fmt/format.h>

namespace ullage::cli {

namespace {

using Command = Arguments::Command;

struct Option {
    std::string name;
    bool takes_value;
    std::vector<Command> commands;
};

const std::vector<Option>& options() {
    static const std::vector<Option> all = {
        {"--json", true, {Command::forecast, Command::measure}},
        {"--csv", true, {Command::forecast}},
        {"--pictures", true, {Command::forecast}},
        {"--paths", true, {Command::forecast, Command::window}},
        {"--seed", true, {Command::forecast, Command::window}},
        {"--threads", true, {Command::forecast, Command::window}},
        {"--as-of", true, {Command::forecast, Command::window}},
        {"--columns", true, {Command::measure}},
        {"--skip-bad-lines", false, {Command::measure}},
    };
    return all;
}

tl::expected<std::uint64_t, std::string> whole_number(const std::string& option, const std::string& text,
                                                      std::uint64_t least, std::uint64_t most) {
    std::uint64_t value = 0;
    const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
    if (error != std::errc() || end != text.data() + text.size() || value < least || value > most)
        return tl::unexpected(
            fmt::format("{} takes a whole number from {} to {}, not “{}”", option, least, most, text));
    return value;
}

std::vector<std::string> split_at_commas(const std::string& text) {
    std::vector<std::string> parts(1);
    for (const char c : text) {
        if (c == ',')
            parts.emplace_back();
        else
            parts.back() += c;
    }
    return parts;
}

std::string set_option(Arguments& a, const std::string& name, const std::string& value) {
    constexpr std::uint64_t most_paths = 1'000'000;
    constexpr std::uint64_t most_threads = 1024;
    const auto number = [&](std::uint64_t least, std::uint64_t most, auto set) -> std::string {
        const auto n = whole_number(name, value, least, most);
        if (!n) return n.error();
        set(*n);
        return {};
    };
    if (name == "--json") a.json = value;
    if (name == "--csv") a.csv = value;
    if (name == "--pictures") a.pictures = value;
    if (name == "--columns") a.columns = split_at_commas(value);
    if (name == "--skip-bad-lines") a.skip_bad_lines = true;
    if (name == "--paths")
        return number(1, most_paths, [&](auto n) { a.settings.paths = static_cast<int>(n); });
    if (name == "--seed") return number(0, UINT64_MAX, [&](auto n) { a.settings.seed = n; });
    if (name == "--threads")
        return number(0, most_threads, [&](auto n) { a.settings.threads = static_cast<int>(n); });
    if (name == "--as-of") {
        const auto day = parse_date(value);
        if (!day) return "--as-of: " + day.error();
        a.settings.as_of = *day;
    }
    return {};
}

std::string command_name(Command c) {
    switch (c) {
        case Command::forecast: return "forecast";
        case Command::measure: return "measure";
        case Command::check: return "check";
        default: return "the window";
    }
}

}  // namespace

tl::expected<Arguments, std::string> parse_arguments(const std::vector<std::string>& words) {
    Arguments a;
    std::size_t i = 0;
    if (!words.empty()) {
        if (words[0] == "forecast") a.command = Command::forecast;
        if (words[0] == "measure") a.command = Command::measure;
        if (words[0] == "check") a.command = Command::check;
        if (a.command != Command::window) i = 1;
    }
    bool only_files = false;
    for (; i < words.size(); ++i) {
        std::string word = words[i];
        if (only_files || word.size() < 2 || word[0] != '-') {
            a.files.push_back(word);
            continue;
        }
        if (word == "--") {
            only_files = true;
            continue;
        }
        if (word == "--help" || word == "-h") {
            a.command = Command::help;
            return a;
        }
        if (word == "--version") {
            a.command = Command::version;
            return a;
        }
        std::optional<std::string> value;
        if (const auto equals = word.find('='); equals != std::string::npos) {
            value = word.substr(equals + 1);
            word.resize(equals);
        }
        const auto option = std::find_if(options().begin(), options().end(),
                                         [&](const Option& o) { return o.name == word; });
        if (option == options().end()) {
            std::vector<std::string> known;
            for (const auto& o : options()) known.push_back(o.name);
            const std::string near = nearest_word(word, known);
            return tl::unexpected(fmt::format("there is no option {}{}; see ullage --help", word,
                                              near.empty() ? "" : fmt::format(" (did you mean {}?)", near)));
        }
        if (std::find(option->commands.begin(), option->commands.end(), a.command) ==
            option->commands.end())
            return tl::unexpected(
                fmt::format("{} is not an option of {}; see ullage --help", word, command_name(a.command)));
        if (option->takes_value && !value) {
            if (i + 1 >= words.size())
                return tl::unexpected(fmt::format("{} needs a value after it", word));
            value = words[++i];
        }
        if (!option->takes_value && value)
            return tl::unexpected(fmt::format("{} takes no value", word));
        if (auto error = set_option(a, word, value.value_or("")); !error.empty())
            return tl::unexpected(error);
    }
    switch (a.command) {
        case Command::window:
            if (a.files.size() > 1)
                return tl::unexpected(
                    fmt::format("the window opens one site, and {} were given; ullage forecast takes several",
                                a.files.size()));
            break;
        case Command::forecast:
            if (a.files.empty()) return tl::unexpected(std::string("forecast needs a site file"));
            if (a.json == "-" && a.csv == "-")
                return tl::unexpected(std::string("only one of --json and --csv can go to standard output"));
            break;
        case Command::measure:
            if (a.files.size() != 1) return tl::unexpected(std::string("measure needs one listing"));
            break;
        case Command::check:
            if (a.files.size() != 1) return tl::unexpected(std::string("check needs one site file"));
            break;
        default: break;
    }
    return a;
}

std::string help_text() {
    return R"(ullage - how full a copy-on-write box gets, when, and whether the line carries its copies

  ullage [SITE]                    opens the window, on that site
  ullage forecast SITE...          prints boxes, sends, datasets and findings
      --json FILE|-                writes the outlook as JSON (several sites: an array)
      --csv FILE|-                 writes the fill of each box by date
      --pictures FOLDER            draws each box's fill into FOLDER
      --paths N                    futures drawn (default 2000)
      --seed N                     of the random numbers (default 1): same seed, same answer
      --threads N                  0 = all (default); the answer does not depend on it
      --as-of DATE                 instead of the site's
  ullage measure LISTING           what a snapshot listing says: live, growth, turnover
      --columns a,b,c...           the columns' roles, if there is no header row
                                   (snapshot, taken, unique, live, written)
      --skip-bad-lines             leave out lines that cannot be read
      --json FILE|-
  ullage check SITE                every problem of a site file, with where and how to mend it
  ullage --help | --version

A file named - is standard output; nothing else is printed there then.
Exit status: 0 done, 1 the input is wrong, 2 wrong usage, 3 could not read or write, 130 interrupted.
A forecast is not a backup, and a copy counts when a restore from it has been tried.
)";
}

}  // namespace ullage::cli
