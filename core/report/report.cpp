// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/report/report.h"

#include "core/report/check_tables.h"
#include "core/report/figures.h"
#include "core/report/inputs.h"
#include "core/report/method.h"
#include "core/report/report_answer.h"
#include "core/report/report_words.h"
#include "core/report/terms.h"

#include <algorithm>
#include <fmt/format.h>
#include <limits>
#include <tuple>

namespace ullage {

namespace {

using namespace report;

// What the body has room for; the appendix has all of it.
constexpr std::size_t most_datasets = 6, most_drivers = 3, most_backtests = 2;

/// urgent: what overruns, and the first of what is tight; the tables of the body say the rest.
enum class Those { urgent, with_a_status, all };

struct WordsOfPart {
    std::string operator()(const ReportHeading&) const { return {}; }  // a name
    std::string operator()(const ReportText& t) const { return t.text; }
    std::string operator()(const ReportList& list) const {
        std::string words;
        for (const auto& item : list.items) words += item.text + " | ";
        return words;
    }
    std::string operator()(const ReportTable& t) const {
        std::string words = t.caption;
        for (const auto& cell : t.header) words += " | " + cell;
        for (const auto& row : t.rows)
            for (const auto& cell : row) words += " | " + cell;
        return words;
    }
    std::string operator()(const ReportPicture& p) const { return p.captioned ? p.text : std::string(); }
    std::string operator()(const ReportRow& row) const {
        std::string words;
        for (const auto& p : row.pictures) words += (*this)(p) + " | ";
        return words;
    }
};

class ReportWriter {
public:
    explicit ReportWriter(const Answer& answer)
        : a_(answer), o_(answer.outlook), w_(answer.language), explainer_(w_), said_(a_.findings.size(), false) {}

    ReportContent write() {
        title();
        how_full();
        does_it_arrive();
        what_we_propose();
        what_it_rests_on();
        cautions();
        item_by_item();
        all_figures();
        every_input();
        method();
        return std::move(r_);
    }

private:
    std::string horizon(Case wanted = Case::nominative) const { return w_.horizon(o_.horizon_days, wanted); }

    void title() {
        r_.language = code_of(a_.language);
        r_.title = w_.say("How full, when, and what to do: {0}", o_.site);
        r_.page_of = w_.say("Page {0} of {1}");
        r_.logo_text = w_.say("Logo");
        r_.answer_heading = w_.say("The answer in three sentences");
        if (!a_.site.prepared_for.empty()) r_.particulars.emplace_back(w_.say("Prepared for"), a_.site.prepared_for);
        if (!a_.site.prepared_by.empty()) r_.particulars.emplace_back(w_.say("Prepared by"), a_.site.prepared_by);
        r_.particulars.emplace_back(w_.say("As of"), w_.date(o_.as_of));
        r_.answer = three_sentences(a_);
    }

    void begin(std::string heading, bool appendix = false) {
        r_.sections.emplace_back();
        r_.sections.back().heading = std::move(heading);
        r_.sections.back().appendix = appendix;
    }

    /// The terms that the section is the first to use: after it in the body, before it in the appendix.
    void end() {
        ReportSection& section = r_.sections.back();
        std::string meanings;
        for (const auto& part : section.parts)
            for (const auto& meaning : explainer_.first_used_in(std::visit(WordsOfPart{}, part)))
                meanings += (meanings.empty() ? "" : " ") + meaning;
        if (meanings.empty()) return;
        section.parts.insert(section.appendix ? section.parts.begin() : section.parts.end(),
                             ReportText{ReportText::As::explained, std::move(meanings)});
    }

    template <class Part>
    void put(Part part) {
        r_.sections.back().parts.emplace_back(std::move(part));
    }
    void plain(std::string sentence) { put(ReportText{ReportText::As::plain, std::move(sentence)}); }
    void heading(std::string words) { put(ReportHeading{std::move(words)}); }
    void list(ReportList list) {
        if (!list.items.empty()) put(std::move(list));
    }
    void table(ReportTable table) {
        if (!table.rows.empty()) put(std::move(table));
    }

    ReportItem item_of(const Finding& f) const { return {f.level, level_words(f.level, w_), f.text}; }

    /// The findings about this item, or (`below`) about any under it, that were not said yet.
    ReportList about(const std::string& pointer, Those those, bool below = false) {
        ReportList found;
        for (std::size_t i = 0; i < a_.findings.size(); ++i) {
            const Finding& f = a_.findings[i];
            const bool here = f.about == pointer || (below && f.about.rfind(pointer + "/", 0) == 0);
            if (said_[i] || !here || (those != Those::all && f.level == Level::note)) continue;
            if (those == Those::urgent && f.level != Level::overruns &&
                (f.level != Level::tight || (!found.items.empty() && found.items.back().level == Level::tight)))
                continue;
            said_[i] = true;
            found.items.push_back(item_of(f));
        }
        return found;
    }

    template <class List>
    static std::string pointer(const char* kind, const List& list, const std::string& name) {
        for (std::size_t i = 0; i < list.size(); ++i)
            if (list[i].name == name) return fmt::format("/{}/{}", kind, i);
        return fmt::format("/{}/-", kind);
    }
    std::string box_pointer(const std::string& name) const { return pointer("boxes", a_.site.boxes, name); }
    std::string send_pointer(const std::string& name) const { return pointer("sends", a_.site.sends, name); }

    void how_full() {
        begin(w_.say("How full, when"));
        if (o_.boxes.empty())
            plain(w_.say("No box has drives or a usable size stated, so how full it gets cannot be said."));
        else
            plain(w_.say("We drew {0} possible futures from what is known of the data, and counted when each box "
                         "comes to the level at which to act, and when it is full.",
                         o_.paths));
        for (std::size_t i = 0; i < o_.boxes.size(); ++i) {
            const BoxOutlook& b = o_.boxes[i];
            heading(b.name);
            list(about(box_pointer(b.name), Those::with_a_status));
            ReportRow row;
            if (!b.fill.empty()) row.pictures.push_back(fill_picture(a_, i, w_));
            row.pictures.push_back(gauge_picture(o_, i, w_));
            put(std::move(row));
        }
        if (!o_.boxes.empty() && !o_.boxes.front().fill.empty()) plain(band_in_words(o_.boxes.front(), w_));
        list(about("/boxes", Those::with_a_status, true));
        end();
    }

    void does_it_arrive() {
        begin(w_.say("Does it arrive in time"));
        if (o_.sends.empty())
            plain(w_.say("No copy is sent anywhere in this plan. A box that burns, floods or is stolen takes its "
                         "snapshots with it."));
        table(sends_table(o_, w_));
        ReportList found;
        for (const auto& s : o_.sends)
            for (auto& item : about(send_pointer(s.name), Those::urgent).items)
                found.items.push_back(std::move(item));
        list(std::move(found));
        end();
    }

    void what_we_propose() {
        begin(w_.say("What we propose"));
        for (const auto& b : o_.boxes) table(offers_table(a_, b.name, w_));
        list(about("/offers", Those::with_a_status, true));
        plain(o_.offers.empty()
                  ? w_.say("No offers were given, so none is compared here.")
                  : w_.say("“Lasts” is the share of futures in which the box stays below the level to act at until the "
                           "end. Every offer is compared on the same futures, as if it were ordered today."));
        table(order_table(o_, w_));
        end();
    }

    void what_it_rests_on() {
        begin(w_.say("What this rests on"));
        table(rests_table(a_, most_datasets, w_));
        if (!o_.datasets.empty()) {
            std::string note =
                w_.say("Measured: from a list of snapshots. Given: stated by whoever described the site. Assumed: "
                       "not stated, and taken as said in Appendix A.");
            if (o_.datasets.size() > most_datasets)
                note += " " + w_.say("The {0} largest of {1} datasets are shown; all are in Appendix B.", most_datasets,
                                     o_.datasets.size());
            plain(note + " " + backtests());
        }
        const BoxOutlook* driven = soonest_driven();
        if (driven) table(drivers_table(o_, driven->name, most_drivers, w_));
        if (driven)
            plain(w_.say("Low and high: 1 in 10 is lower, 1 in 10 is higher; shown is the time until the level to "
                         "act at. Measuring the first of these better would narrow the answer most."));
        end();
    }

    /// The box that comes to its ceiling soonest, or likeliest, of those whose day something moves.
    const BoxOutlook* soonest_driven() const {
        const BoxOutlook* soonest = nullptr;
        const auto key = [](const BoxOutlook& b) {
            constexpr double never = std::numeric_limits<double>::infinity();
            return std::make_tuple(b.days_until_ceiling.p50.value_or(never), b.days_until_ceiling.p10.value_or(never),
                                   -b.chance_of_ceiling_within_horizon);
        };
        for (const auto& b : o_.boxes) {
            const bool has = std::any_of(o_.drivers.begin(), o_.drivers.end(),
                                         [&](const Driver& d) { return d.box == b.name; });
            if (has && (!soonest || key(b) < key(*soonest))) soonest = &b;
        }
        return soonest;
    }

    /// How earlier forecasts would have fared, in the worst cases.
    std::string backtests() const {
        std::vector<const DatasetOutlook*> tried;
        for (const auto& d : o_.datasets)
            if (d.backtest) tried.push_back(&d);
        if (tried.empty())
            return w_.say("None of these figures could be tried on the past, since no list of snapshots is long enough.");
        std::stable_sort(tried.begin(), tried.end(), [](const auto* x, const auto* y) {
            return x->backtest->live_error > y->backtest->live_error;
        });
        std::string text = w_.say("Tried on the past:");
        for (std::size_t i = 0; i < std::min(tried.size(), most_backtests); ++i)
            text += " " + backtest_in_words(*tried[i], w_);
        if (tried.size() > most_backtests) text += " " + w_.say("The others were nearer.");
        return text;
    }

    void cautions() {
        begin(w_.say("Cautions"));
        ReportList found;
        const auto caution = [&](std::string text) { found.items.push_back({Level::note, {}, std::move(text)}); };
        caution(w_.say("A forecast is not a backup. A copy counts when a restore from it has been tried."));
        caution(w_.say("Keep one copy offline or unchangeable: what can be written can be destroyed by mistake or malice."));
        caution(w_.say("The futures are drawn from what is known today. Make the forecast anew when that changes, "
                       "and at least every few months."));
        caution(w_.say("Electrical and rack work belongs to qualified people and follows local codes."));
        for (std::size_t i = 0; i < a_.findings.size(); ++i) {
            const Finding& f = a_.findings[i];
            if (said_[i] || f.level == Level::note || f.about.rfind("/sends", 0) == 0) continue;
            said_[i] = true;
            found.items.push_back(item_of(f));
        }
        list(std::move(found));
        end();
    }

    void item_by_item() {
        begin(w_.say("Appendix A: item by item"), true);
        table(boxes_table(a_, w_));
        for (const auto& b : o_.boxes) {
            heading(b.name);
            list(about(box_pointer(b.name), Those::all));
            table(drivers_table(o_, b.name, 0, w_));
        }
        list(about("/boxes", Those::all, true));
        for (std::size_t i = 0; i < o_.sends.size(); ++i) {
            const SendOutlook& s = o_.sends[i];
            heading(s.name);
            list(about(send_pointer(s.name), Those::all));
            table(send_table(s, w_));
            if (!s.week.empty()) put(week_picture(o_, i, w_));
        }
        list(about("/sends", Those::all, true));
        titled(w_.say("Offers"), about("/offers", Those::all, true));
        titled(w_.say("What was taken where nothing was given"), about("/datasets", Those::all, true));
        // What is about nothing that was named yet, whatever it is, is said here: no finding is lost.
        ReportList rest;
        for (std::size_t i = 0; i < a_.findings.size(); ++i)
            if (!said_[i]) rest.items.push_back(item_of(a_.findings[i]));
        titled(w_.say("Besides"), std::move(rest));
        end();
    }

    void titled(std::string words, ReportList found) {
        if (found.items.empty()) return;
        heading(std::move(words));
        list(std::move(found));
    }

    void all_figures() {
        begin(w_.say("Appendix B: all figures"), true);
        for (auto& t : box_tables(o_, w_)) table(std::move(t));
        for (const auto& s : o_.sends)
            for (auto& t : send_tables(s, w_)) table(std::move(t));
        if (o_.datasets.size() > most_datasets) table(rests_table(a_, 0, w_));
        for (auto& t : dataset_tables(o_, w_)) table(std::move(t));
        for (const auto& d : o_.datasets)
            if (d.backtest) plain(backtest_in_words(d, w_));
        for (auto& t : offer_tables(o_, w_)) table(std::move(t));
        end();
    }

    void every_input() {
        begin(w_.say("Appendix C: every input"), true);
        plain(w_.say("As the site is described. What is not listed is at its default, and named above where it matters."));
        for (auto& t : input_tables(a_.site, w_)) table(std::move(t));
        end();
    }

    void method() {
        begin(w_.say("Appendix D: the method"), true);
        for (auto& paragraph : method_in_words(w_)) plain(std::move(paragraph));
        plain(w_.say("{0} futures, seed {1}, as of {2}, {3} ahead. The same description and seed give the same report.",
                     o_.paths, std::to_string(o_.seed), w_.date(o_.as_of), horizon()));
        end();
    }

    const Answer& a_;
    const Outlook& o_;
    Wording w_;
    ReportContent r_;
    Explainer explainer_;
    std::vector<bool> said_;
};

}  // namespace

ReportContent report_of(const Answer& answer) { return ReportWriter(answer).write(); }

}  // namespace ullage
