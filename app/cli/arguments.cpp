// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/cli/arguments.h"

#include "core/units/quantity_text.h"

#include <algorithm>
#include <array>
#include <charconv>
#include <fmt/format.h>
#include <string_view>

namespace ullage::cli {

namespace {

using Command = Arguments::Command;

/// The commands that take an option, one bit each.
template <class... Of>
constexpr unsigned in(Of... commands) {
    return ((1U << static_cast<unsigned>(commands)) | ...);
}

constexpr unsigned with_futures = in(Command::forecast, Command::window, Command::solve, Command::outage, Command::report);

struct Option {
    std::string_view name;
    bool takes_value;
    unsigned commands;

    bool goes_with(Command command) const { return (commands & in(command)) != 0; }
};

constexpr std::array options{
    Option{"--json", true, in(Command::forecast, Command::measure, Command::solve, Command::outage)},
    Option{"--csv", true, in(Command::forecast)},
    Option{"--pictures", true, in(Command::forecast)},
    Option{"--paths", true, with_futures},
    Option{"--seed", true, with_futures},
    Option{"--threads", true, with_futures},
    Option{"--as-of", true, with_futures},
    Option{"--allow-outside", false, with_futures | in(Command::check)},
    Option{"--for", true, in(Command::solve)},
    Option{"--box", true, in(Command::solve)},
    Option{"--send", true, in(Command::solve, Command::outage)},
    Option{"--confidence", true, in(Command::solve)},
    Option{"--rates", true, in(Command::solve)},
    Option{"--from", true, in(Command::outage)},
    Option{"--days", true, in(Command::outage)},
    Option{"--pdf", true, in(Command::report)},
    Option{"--html", true, in(Command::report)},
    Option{"--language", true, in(Command::forecast, Command::solve, Command::outage, Command::report)},
    Option{"--paper", true, in(Command::report)},
    Option{"--logo", true, in(Command::report)},
    Option{"--columns", true, in(Command::measure)},
    Option{"--skip-bad-lines", false, in(Command::measure)},
};

tl::expected<std::uint64_t, std::string> whole_number(const std::string& option, const std::string& text,
                                                      std::uint64_t least, std::uint64_t most) {
    std::uint64_t value = 0;
    const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
    if (error != std::errc() || end != text.data() + text.size() || value < least || value > most)
        return tl::unexpected(
            fmt::format("{} takes a whole number from {} to {}, not “{}”", option, least, most, text));
    return value;
}

tl::expected<SolveFor, std::string> solve_word(const std::string& word) {
    std::vector<std::string> known;
    for (const auto what :
         {SolveFor::link_rate, SolveFor::usable, SolveFor::ladder, SolveFor::order_date}) {
        if (to_string(what) == word) return what;
        known.push_back(to_string(what));
    }
    return tl::unexpected(fmt::format("--for takes one of {}, not “{}”", fmt::join(known, ", "), word));
}

/// A number or a percentage.
tl::expected<double, std::string> share_between(const std::string& option, const std::string& text,
                                                double low, double high) {
    const auto value = parse_fraction(text);
    if (!value) return tl::unexpected(option + ": " + value.error());
    if (!(*value > low && *value < high))
        return tl::unexpected(fmt::format("{} takes a share above {} and below {}, not “{}”", option, low, high, text));
    return *value;
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
    if (name == "--allow-outside") a.allow_outside = true;
    if (name == "--paths")
        return number(1, most_paths, [&](auto n) { a.settings.paths = static_cast<int>(n); });
    if (name == "--seed") return number(0, UINT64_MAX, [&](auto n) { a.settings.seed = n; });
    if (name == "--threads")
        return number(0, most_threads, [&](auto n) { a.settings.threads = static_cast<int>(n); });
    if (name == "--as-of" || name == "--from") {
        const auto day = parse_date(value);
        if (!day) return name + ": " + day.error();
        (name == "--from" ? a.outage_from : a.settings.as_of) = *day;
    }
    if (name == "--box") a.box = value;
    if (name == "--send") a.send = value;
    if (name == "--rates") a.rates = value;
    if (name == "--pdf") a.pdf = value;
    if (name == "--html") a.html = value;
    if (name == "--logo") a.logo = value;
    if (name == "--language") {
        a.language = language_of(value);
        if (!a.language || value.size() != 2) return fmt::format("--language takes en or de, not “{}”", value);
    }
    if (name == "--paper") {
        if (value != "a4" && value != "letter") return fmt::format("--paper takes a4 or letter, not “{}”", value);
        a.letter = value == "letter";
    }
    if (name == "--for") {
        const auto what = solve_word(value);
        if (!what) return what.error();
        a.solve_for = *what;
    }
    if (name == "--confidence") {
        const auto c = share_between(name, value, 0.5, 1);
        if (!c) return c.error();
        a.confidence = *c;
    }
    if (name == "--days") {
        const auto days = parse_fraction(value);
        constexpr double most_days = 36525;
        if (!days || !(*days > 0 && *days <= most_days))
            return fmt::format("--days takes a number of days above 0, at most {}, not “{}”", most_days, value);
        a.outage_days = *days;
    }
    return {};
}

std::string command_name(Command c) {
    switch (c) {
        case Command::forecast: return "forecast";
        case Command::measure: return "measure";
        case Command::check: return "check";
        case Command::solve: return "solve";
        case Command::outage: return "outage";
        case Command::report: return "report";
        default: return "the window";
    }
}

/// What goes together in `solve`.
std::string fault_of_solve(const Arguments& a, const std::vector<std::string>& given) {
    const auto has = [&](const char* option) {
        return std::find(given.begin(), given.end(), option) != given.end();
    };
    if (!has("--for")) return "solve needs --for link-rate, usable, ladder or order-date";
    const bool of_a_line = a.solve_for == SolveFor::link_rate;
    for (const char* option : {"--send", "--rates"})
        if (has(option) && !of_a_line)
            return fmt::format("{} goes with --for link-rate; {} is asked of a box", option, to_string(a.solve_for));
    return {};
}

}  // namespace

tl::expected<Arguments, std::string> parse_arguments(const std::vector<std::string>& words) {
    Arguments a;
    std::size_t i = 0;
    if (!words.empty()) {
        if (words[0] == "forecast") a.command = Command::forecast;
        if (words[0] == "measure") a.command = Command::measure;
        if (words[0] == "check") a.command = Command::check;
        if (words[0] == "solve") a.command = Command::solve;
        if (words[0] == "outage") a.command = Command::outage;
        if (words[0] == "report") a.command = Command::report;
        if (a.command != Command::window) i = 1;
    }
    bool only_files = false;
    std::vector<std::string> given;
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
        const auto option = std::find_if(options.begin(), options.end(),
                                         [&](const Option& o) { return o.name == word; });
        if (option == options.end()) {
            std::vector<std::string> known;
            for (const auto& o : options) known.emplace_back(o.name);
            const std::string near = nearest_word(word, known);
            return tl::unexpected(fmt::format("there is no option {}{}; see ullage --help", word,
                                              near.empty() ? "" : fmt::format(" (did you mean {}?)", near)));
        }
        if (!option->goes_with(a.command))
            return tl::unexpected(
                fmt::format("{} is not an option of {}; see ullage --help", word, command_name(a.command)));
        if (option->takes_value && !value) {
            if (i + 1 >= words.size())
                return tl::unexpected(fmt::format("{} needs a value after it", word));
            value = words[++i];
        }
        if (!option->takes_value && value)
            return tl::unexpected(fmt::format("{} takes no value", word));
        given.push_back(word);
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
        case Command::solve:
            if (a.files.size() != 1) return tl::unexpected(std::string("solve needs one site file"));
            if (auto fault = fault_of_solve(a, given); !fault.empty()) return tl::unexpected(fault);
            break;
        case Command::outage:
            if (a.files.size() != 1) return tl::unexpected(std::string("outage needs one site file"));
            for (const char* needed : {"--send", "--from", "--days"})
                if (std::find(given.begin(), given.end(), needed) == given.end())
                    return tl::unexpected(fmt::format("outage needs {}; see ullage --help", needed));
            break;
        case Command::report:
            if (a.files.size() != 1) return tl::unexpected(std::string("report needs one site file"));
            if (!a.pdf && !a.html) return tl::unexpected(std::string("report needs --pdf FILE or --html FILE, or both"));
            if (a.pdf == "-" && a.html == "-")
                return tl::unexpected(std::string("only one of --pdf and --html can go to standard output"));
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
  ullage solve SITE                what it would take
      --for WHAT                   link-rate, usable, ladder or order-date
      --send S, --box B            only this send's line, only this box
      --confidence C               0.9: in 9 futures of 10 (default: the site's)
      --rates FILE                 line rates that are sold, one a line
      --json FILE|-
  ullage outage SITE               a line is down: what waits, how long catching up takes
      --send S --from DATE --days N
      --json FILE|-
  ullage report SITE               what a client reads: the answer, pictures, what to order, the method
      --pdf FILE|-, --html FILE|-  one or both; the HTML is one file that needs nothing else
      --paper a4|letter            of the PDF (default a4)
      --logo FILE                  a PNG or JPEG for the first page
      --language en|de             of forecast, solve, outage and report (default: what LC_ALL, LC_MESSAGES
                                   or LANG say, else English); what is wrong with a file is said in English
                                   solve, outage and report also take --paths, --seed, --threads, --as-of
  ullage check SITE                every problem of a site file, with where and how to mend it
      --allow-outside              with any SITE: its listings may lie outside its folder
  ullage --help | --version

A file named - is standard output; nothing else is printed there then.
Exit status: 0 done, 1 the input is wrong, 2 wrong usage, 3 could not read or write, 130 interrupted.
A forecast is not a backup, and a copy counts when a restore from it has been tried.
)";
}

}  // namespace ullage::cli
