// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/cli/commands.h"

#include "app/cli/measure_report.h"
#include "app/cli/output.h"
#include "core/findings/questions.h"
#include "core/measure/evidence.h"
#include "core/outlook/measured_view.h"
#include "core/outlook/threads.h"
#include "core/site/site_json.h"

#include <algorithm>
#include <atomic>
#include <chrono>
#include <csignal>
#include <cstdlib>
#include <cstdio>
#include <fmt/format.h>
#include <limits>
#include <optional>
#include <thread>
#include <unistd.h>

namespace ullage::cli {

namespace {

volatile std::sig_atomic_t interrupt_seen = 0;

/// Turns Ctrl+C into a stop request while it lives.
class InterruptWatch {
public:
    InterruptWatch() {
        interrupt_seen = 0;
        previous_ = std::signal(SIGINT, [](int) { interrupt_seen = 1; });
        watcher_ = std::jthread([this](const std::stop_token& token) {
            using namespace std::chrono_literals;
            while (!token.stop_requested()) {
                if (interrupt_seen != 0) source_.request_stop();
                std::this_thread::sleep_for(20ms);
            }
        });
    }
    ~InterruptWatch() {
        watcher_.request_stop();
        watcher_.join();
        std::signal(SIGINT, previous_);
    }
    InterruptWatch(const InterruptWatch&) = delete;
    InterruptWatch& operator=(const InterruptWatch&) = delete;
    std::stop_token token() const { return source_.get_token(); }

private:
    void (*previous_)(int) = nullptr;
    std::stop_source source_;
    std::jthread watcher_;
};

/// Progress on a terminal, once the work has taken long enough to be noticed.
class ProgressLine {
public:
    explicit ProgressLine(std::string name) : name_(std::move(name)) {}
    ~ProgressLine() {
        if (shown_) fmt::print(stderr, "\r{:{}}\r", "", name_.size() + 8);
    }
    ProgressLine(const ProgressLine&) = delete;
    ProgressLine& operator=(const ProgressLine&) = delete;
    void show(double done) {
        using namespace std::chrono_literals;
        if (isatty(STDERR_FILENO) == 0 || std::chrono::steady_clock::now() - begun_ < 500ms) return;
        fmt::print(stderr, "\r{}  {:3.0f} %", name_, 100 * done);
        shown_ = true;
    }

private:
    std::string name_;
    std::chrono::steady_clock::time_point begun_ = std::chrono::steady_clock::now();
    bool shown_ = false;
};

struct Loaded {
    std::string file;
    Site site;
    Evidence evidence;
};

tl::expected<Loaded, ExitStatus> load(const std::string& file, const Arguments& arguments) {
    auto site = read_site_file(file);
    if (!site) {
        print_problems(site.error());
        return tl::unexpected(status_of(site.error()));
    }
    auto evidence = load_evidence(*site, folder_of(file),
                                  [&](const std::string&) { return arguments.allow_outside; });
    if (!evidence) {
        auto status = input_wrong;
        for (auto& bad : evidence.error()) {
            if (bad.file.empty()) bad.file = file;
            print_problems(bad);
            if (bad.unreadable) status = file_trouble;
        }
        return tl::unexpected(status);
    }
    return Loaded{file, *std::move(site), *std::move(evidence)};
}

tl::expected<Answer, ExitStatus> answer_of(const Loaded& loaded, const Settings& settings,
                                           const std::stop_token& stop, Language language) {
    ProgressLine line(loaded.file);
    auto result = answer(loaded.site, loaded.evidence, settings,
                         {stop, [&](double done) { line.show(done); }});
    if (result) return in_language(*std::move(result), language);
    if (std::holds_alternative<Cancelled>(result.error())) return tl::unexpected(interrupted);
    print_problems({loaded.file, std::get<Problems>(result.error()), false});
    return tl::unexpected(input_wrong);
}

Language language_asked(const Arguments& arguments) {
    return arguments.language.value_or(
        language_of_environment(std::getenv("LC_ALL"), std::getenv("LC_MESSAGES"), std::getenv("LANG")));
}

/// Days to the first thing that goes wrong in a site, for sorting.
double soonest_trouble(const Answer& a) {
    double days = std::numeric_limits<double>::infinity();
    for (const auto& b : a.outlook.boxes)
        if (b.days_until_ceiling.p10) days = std::min(days, *b.days_until_ceiling.p10);
    for (const auto& s : a.outlook.sends)
        if (status_of(s, a.outlook.confidence) == Level::overruns) days = 0;
    return days;
}

/// What the table of several sites says of one.
struct SiteLine {
    double days = 0;
    std::string site, first_finding;
};

SiteLine line_of(const Answer& a) {
    return {soonest_trouble(a), a.outlook.site, a.findings.empty() ? std::string() : a.findings.front().text};
}

std::string sites_table(std::vector<SiteLine> lines, Language language) {
    std::stable_sort(lines.begin(), lines.end(),
                     [](const SiteLine& a, const SiteLine& b) { return a.days < b.days; });
    const Wording w(language);
    std::string text = w.say("Sites, soonest trouble first") + "\n";
    for (const auto& line : lines) {
        const std::string when = line.days <= 0               ? w.say("now")
                                 : std::isfinite(line.days) ? fmt::format("{:.0f} d", line.days)
                                                            : w.say_as("trouble", "none");
        text += fmt::format("  {:>9}  {}: {}\n", when, line.site, line.first_finding);
    }
    return text;
}

/// What is asked of a forecast, put together site by site, so that a thousand of them need no more memory than one.
class ForecastOutput {
public:
    explicit ForecastOutput(const Arguments& arguments, const DrawPictures& draw)
        : arguments_(arguments), draw_(draw), several_(arguments.files.size() > 1) {}

    void add(Answer answer) {
        if (arguments_.json)
            json_.add((!several_ ? "" : first_ ? "[\n" : ",\n") + without_last_newline(outlook_json(answer)));
        if (arguments_.csv) csv_.add(outlook_csv(answer, first_));
        if (!arguments_.json && !arguments_.csv) tables_.add((first_ ? "" : "\n") + outlook_tables(answer));
        lines_.push_back(line_of(answer));
        if (arguments_.pictures) for_pictures_.push_back(std::move(answer));
        first_ = false;
    }

    ExitStatus write() {
        if (arguments_.json) {
            json_.add(several_ ? "\n]\n" : "\n");
            if (!json_.write_to(*arguments_.json)) return file_trouble;
        }
        if (arguments_.csv && !csv_.write_to(*arguments_.csv)) return file_trouble;
        if (!arguments_.json && !arguments_.csv) {
            if (several_ && !write_output("-", sites_table(lines_, language_asked(arguments_)) + "\n"))
                return file_trouble;
            if (!tables_.write_to("-")) return file_trouble;
        }
        return arguments_.pictures ? draw_pictures() : done;
    }

private:
    static std::string without_last_newline(std::string text) {
        if (!text.empty() && text.back() == '\n') text.pop_back();
        return text;
    }

    ExitStatus draw_pictures() {
        for (const auto& a : for_pictures_) {
            std::vector<std::string> written;
            if (!draw_(a, *arguments_.pictures, written)) {
                print_error(*arguments_.pictures, "the pictures could not be written");
                return file_trouble;
            }
            auto* const stream = arguments_.json == "-" || arguments_.csv == "-" ? stderr : stdout;
            for (const auto& file : written) fmt::print(stream, "picture: {}\n", file);
        }
        return done;
    }

    const Arguments& arguments_;
    const DrawPictures& draw_;
    bool several_, first_ = true;
    Spool json_, csv_, tables_;
    std::vector<SiteLine> lines_;
    std::vector<Answer> for_pictures_;
};

/// Sites that are read, in order, a few at a time, and computed side by side; each on one thread, which is
/// less waiting than all threads on each.
ExitStatus forecast_several(const Arguments& arguments, const Settings& asked, ForecastOutput& output,
                            const std::stop_token& stop) {
    Settings settings = asked;
    settings.threads = 1;
    const std::size_t cores = std::max(1U, std::thread::hardware_concurrency());
    const std::size_t at_once = (asked.threads > 0 ? std::size_t(asked.threads) : cores) * 2;
    ExitStatus worst = done;
    for (std::size_t from = 0; from < arguments.files.size(); from += at_once) {
        std::vector<Loaded> sites;
        for (std::size_t i = from; i < std::min(from + at_once, arguments.files.size()); ++i) {
            auto loaded = load(arguments.files[i], arguments);
            if (loaded)
                sites.push_back(*std::move(loaded));
            else
                worst = std::max(worst, loaded.error());
        }
        using Result = tl::expected<Answer, ComputeError>;
        std::vector<std::optional<Result>> answers(sites.size());
        side_by_side(asked.threads, 0, sites.size(), [&](std::size_t i) {
            answers[i] = answer(sites[i].site, sites[i].evidence, settings, {stop, {}});
        });
        for (std::size_t i = 0; i < sites.size(); ++i) {
            const Result& result = *answers[i];
            if (!result) {
                if (std::holds_alternative<Cancelled>(result.error())) return interrupted;
                print_problems({sites[i].file, std::get<Problems>(result.error()), false});
                worst = std::max(worst, input_wrong);
            } else if (worst == done) {
                output.add(in_language(*std::move(*answers[i]), language_asked(arguments)));
            }
        }
    }
    return worst;
}

}  // namespace

int run_forecast(const Arguments& arguments, const DrawPictures& draw) {
    InterruptWatch interrupt;
    Settings settings = arguments.settings;
    settings.judged = arguments.json.has_value();  // only the JSON tells of the backtests
    ForecastOutput output(arguments, draw);
    if (arguments.files.size() > 1) {
        const auto status = forecast_several(arguments, settings, output, interrupt.token());
        return status == done ? output.write() : status;  // nothing is written when an input is wrong
    }
    const auto loaded = load(arguments.files.front(), arguments);
    if (!loaded) return loaded.error();
    auto a = answer_of(*loaded, settings, interrupt.token(), language_asked(arguments));
    if (!a) return a.error();
    output.add(*std::move(a));
    return output.write();
}

int run_measure(const Arguments& arguments) {
    const std::string& file = arguments.files.front();
    const auto listings = read_listing_file(file, {arguments.columns, arguments.skip_bad_lines});
    if (!listings) {
        print_problems(listings.error());
        return status_of(listings.error());
    }
    std::vector<Measured> all;
    for (const auto& listing : *listings) {
        auto measured = measure(listing);
        if (!measured) {
            print_error(file, measured.error());
            return input_wrong;
        }
        all.push_back({*std::move(measured), measured_steps(listing), backtest(listing)});
    }
    if (arguments.json) return write_output(*arguments.json, measure_json(all)) ? done : file_trouble;
    return write_output("-", measure_text(all)) ? done : file_trouble;
}

namespace {

/// A question to one site: `ask` computes, `text` and `json` say it.
template <class Ask, class Text, class Json>
int answer_question(const Arguments& arguments, const Ask& ask, const Text& text, const Json& json) {
    InterruptWatch interrupt;
    const auto loaded = load(arguments.files.front(), arguments);
    if (!loaded) return loaded.error();
    const auto result = [&] {
        ProgressLine line(loaded->file);
        return ask(*loaded, Progress{interrupt.token(), [&](double done) { line.show(done); }});
    }();
    if (!result) {
        if (std::holds_alternative<Cancelled>(result.error())) return interrupted;
        print_problems({loaded->file, std::get<Problems>(result.error()), false});
        return input_wrong;
    }
    const bool written = arguments.json ? write_output(*arguments.json, json(*result))
                                        : write_output("-", text(*result));
    return written ? done : file_trouble;
}

#ifdef ULLAGE_RESOURCES
constexpr const char* resources_folder = ULLAGE_RESOURCES;
#else
constexpr const char* resources_folder = "";
#endif

/// The list named, or the one installed (of the checkout, where this was built in one), which can be edited,
/// or the one built in.
tl::expected<std::vector<BitsPerSecond>, ExitStatus> sold_rates(const Arguments& arguments) {
    const std::string file =
        arguments.rates ? *arguments.rates : std::string(resources_folder) + "/line-rates.txt";
    const auto text = read_text_file(file);
    if (!text) {
        if (!arguments.rates) return usual_sold_rates();
        print_error(file, text.error());
        return tl::unexpected(file_trouble);
    }
    auto rates = parse_sold_rates(*text);
    if (rates) return *std::move(rates);
    print_problems({file, rates.error(), false});
    return tl::unexpected(input_wrong);
}

}  // namespace

int run_solve(const Arguments& arguments) {
    const Language language = language_asked(arguments);
    SolveQuestion question;
    question.what = arguments.solve_for;
    question.box = arguments.box;
    question.send = arguments.send;
    question.confidence = arguments.confidence;
    if (question.what == SolveFor::link_rate) {
        auto rates = sold_rates(arguments);
        if (!rates) return rates.error();
        question.sold = *std::move(rates);
    }
    return answer_question(
        arguments,
        [&](const Loaded& loaded, const Progress& progress) {
            return solve(loaded.site, loaded.evidence, arguments.settings, question, progress);
        },
        [&](const SolveAnswer& answer) { return solve_text(answer, language); }, solve_json);
}

int run_outage(const Arguments& arguments) {
    const Language language = language_asked(arguments);
    const OutageQuestion question{*arguments.send, *arguments.outage_from, arguments.outage_days};
    return answer_question(
        arguments,
        [&](const Loaded& loaded, const Progress& progress) {
            return outage_drill(loaded.site, loaded.evidence, arguments.settings, question, progress);
        },
        [&](const OutageDrill& drill) { return drill_text(drill, language); },
        [&](const OutageDrill& drill) { return drill_json(drill, language); });
}

int run_report(const Arguments& arguments, const LayReport& lay) {
    InterruptWatch interrupt;
    const auto loaded = load(arguments.files.front(), arguments);
    if (!loaded) return loaded.error();
    ReportAsked asked{arguments.pdf.has_value(), arguments.html.has_value(), arguments.letter, {}};
    if (arguments.logo) {
        constexpr std::size_t most_bytes = 16U << 20U;
        auto logo = read_text_file(*arguments.logo, most_bytes);
        if (!logo) {
            print_error(*arguments.logo, logo.error());
            return file_trouble;
        }
        asked.logo = *std::move(logo);
        if (asked.logo.empty()) {
            print_error(*arguments.logo, "the file is empty; a PNG or JPEG is needed");
            return input_wrong;
        }
    }
    const auto a = answer_of(*loaded, arguments.settings, interrupt.token(), language_asked(arguments));
    if (!a) return a.error();
    const auto files = lay(*a, asked);
    if (!files) {
        print_error(arguments.logo.value_or(loaded->file), files.error());
        return input_wrong;
    }
    if (arguments.pdf && !write_output(*arguments.pdf, files->pdf)) return file_trouble;
    if (arguments.html && !write_output(*arguments.html, files->html)) return file_trouble;
    return done;
}

int run_check(const Arguments& arguments) {
    const auto loaded = load(arguments.files.front(), arguments);
    if (!loaded) return loaded.error();
    Settings one_path;
    one_path.paths = 1;
    one_path.judged = false;
    const auto a = answer_of(*loaded, one_path, {}, Language::english);
    if (!a) return a.error();
    const auto& site = loaded->site;
    const auto counted = [](std::size_t n, const char* one, const char* many) {
        return fmt::format("{} {}", n, n == 1 ? one : many);
    };
    fmt::print("{}: no problems ({}, {}, {}, {}, {})\n", loaded->file,
               counted(site.datasets.size(), "dataset", "datasets"), counted(site.boxes.size(), "box", "boxes"),
               counted(site.links.size(), "link", "links"), counted(site.sends.size(), "send", "sends"),
               counted(site.offers.size(), "offer", "offers"));
    return done;
}

int print_help() { return write_output("-", help_text()) ? done : file_trouble; }

int print_version() {
    return write_output("-", fmt::format("ullage {}\nGPL-3.0-or-later\n", ULLAGE_VERSION)) ? done
                                                                                         : file_trouble;
}

}  // namespace ullage::cli
