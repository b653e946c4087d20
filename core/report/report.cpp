// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/report/report.h"

#include "core/findings/words.h"
#include "core/report/figures.h"
#include "core/report/inputs.h"
#include "core/report/report_answer.h"
#include "core/report/report_words.h"
#include "core/report/sentences.h"
#include "core/report/terms.h"

#include <algorithm>

namespace ullage {

namespace {

using namespace report;

std::string text(std::string_view constant) { return std::string(constant); }

class ReportWriter {
public:
    explicit ReportWriter(const Answer& answer) : a_(answer), o_(answer.outlook) {}

    ReportContent write() {
        r_.title = filled(sentences::title, o_.site);
        r_.page_of = sentences::page_of;
        r_.logo_text = sentences::logo;
        r_.answer_heading = sentences::answer_heading;
        if (!a_.site.prepared_for.empty())
            r_.particulars.emplace_back(sentences::prepared_for, a_.site.prepared_for);
        if (!a_.site.prepared_by.empty()) r_.particulars.emplace_back(sentences::prepared_by, a_.site.prepared_by);
        r_.particulars.emplace_back(sentences::as_of, format_date(o_.as_of));
        r_.answer = three_sentences(a_);
        said_.resize(a_.findings.size(), false);
        section({});  // what the three sentences need explained
        for (const auto& sentence : r_.answer) explain(sentence);
        how_full();
        does_it_arrive();
        what_we_propose();
        what_it_rests_on();
        cautions();
        section(sentences::figures_heading);
        for (auto& table : figure_tables(o_)) add(std::move(table));
        section(sentences::inputs_heading);
        plain(sentences::inputs_lead);
        for (auto& table : input_tables(a_.site)) add(std::move(table));
        section(sentences::method_heading);
        for (const auto& paragraph : sentences::method) plain(paragraph);
        plain(filled(sentences::made_with, o_.paths, o_.seed, format_date(o_.as_of), horizon()));
        return std::move(r_);
    }

private:
    std::string horizon() const { return say_horizon(o_.horizon_days); }

    void section(std::string_view heading) {
        r_.sections.emplace_back();
        r_.sections.back().heading = heading;
    }

    void explain(std::string_view used) {
        for (auto& meaning : explainer_.first_used_in(used))
            r_.sections.back().parts.emplace_back(ReportText{ReportText::As::explained, std::move(meaning)});
    }

    void plain(std::string_view sentence) {
        r_.sections.back().parts.emplace_back(ReportText{ReportText::As::plain, text(sentence)});
        explain(sentence);
    }

    void heading(std::string_view words) { r_.sections.back().parts.emplace_back(ReportHeading{text(words)}); }

    void add(ReportTable table) {
        std::string words = table.caption;
        for (const auto& cell : table.header) words += " | " + cell;
        for (const auto& row : table.rows)
            for (const auto& cell : row) words += " | " + cell;
        r_.sections.back().parts.emplace_back(std::move(table));
        explain(words);
    }

    void add(ReportPicture picture) {
        const std::string words = picture.title;
        r_.sections.back().parts.emplace_back(std::move(picture));
        explain(words);
    }

    void add(ReportList list) {
        if (list.items.empty()) return;
        std::string words;
        for (const auto& item : list.items) words += item.text + " | ";
        r_.sections.back().parts.emplace_back(std::move(list));
        explain(words);
    }

    static std::string mark_of(Level level) { return level == Level::note ? std::string() : level_words(level); }

    /// The findings about this item, or (`below`) about any under it, that were not said yet.
    ReportList findings_about(const std::string& about, bool below = false) {
        ReportList list;
        for (std::size_t i = 0; i < a_.findings.size(); ++i) {
            const Finding& f = a_.findings[i];
            const bool here = f.about == about || (below && f.about.rfind(about + "/", 0) == 0);
            if (said_[i] || !here) continue;
            said_[i] = true;
            list.items.push_back({f.level, mark_of(f.level), f.text});
        }
        return list;
    }

    template <class List>
    static std::string pointer(const char* kind, const List& list, const std::string& name) {
        for (std::size_t i = 0; i < list.size(); ++i)
            if (list[i].name == name) return fmt::format("/{}/{}", kind, i);
        return fmt::format("/{}/-", kind);
    }

    void how_full() {
        section(sentences::full_heading);
        if (o_.boxes.empty()) {
            plain(sentences::no_boxes);
            add(findings_about("/boxes", true));
            return;
        }
        plain(filled(sentences::full_lead, o_.paths));
        add(boxes_table(a_));
        for (std::size_t i = 0; i < o_.boxes.size(); ++i) {
            const BoxOutlook& b = o_.boxes[i];
            heading(b.name);
            add(findings_about(pointer("boxes", a_.site.boxes, b.name)));
            add(gauge_picture(o_, i));
            if (b.fill.empty()) continue;
            add(fill_picture(a_, i));
            if (i == 0) plain(band_in_words(b));
        }
        add(findings_about("/boxes", true));
    }

    void does_it_arrive() {
        section(sentences::arrive_heading);
        if (o_.sends.empty()) plain(sentences::arrive_none);
        for (std::size_t i = 0; i < o_.sends.size(); ++i) {
            const SendOutlook& s = o_.sends[i];
            heading(s.name);
            add(findings_about(pointer("sends", a_.site.sends, s.name)));
            add(send_table(s));
            if (!s.week.empty()) add(week_picture(o_, i));
        }
        ReportList rest = findings_about("/sends", true);
        for (auto& item : findings_about("/sends").items) rest.items.push_back(std::move(item));
        add(std::move(rest));
    }

    void what_we_propose() {
        section(sentences::propose_heading);
        if (o_.offers.empty()) plain(sentences::propose_none);
        for (const auto& b : o_.boxes) {
            ReportTable table = offers_table(o_, b.name);
            if (table.rows.empty()) continue;
            add(std::move(table));
            ReportList said;
            for (std::size_t i = 0; i < o_.offers.size(); ++i)
                if (o_.offers[i].box == b.name)
                    for (auto& item : findings_about(fmt::format("/offers/{}", i)).items)
                        said.items.push_back(std::move(item));
            std::stable_sort(said.items.begin(), said.items.end(),
                             [](const auto& x, const auto& y) { return x.level < y.level && y.level == Level::note; });
            add(std::move(said));
        }
        if (!o_.offers.empty()) plain(sentences::lasts_note);
        add(findings_about("/offers", true));
        if (!o_.boxes.empty()) add(order_table(o_));
    }

    void what_it_rests_on() {
        section(sentences::rests_heading);
        if (!o_.datasets.empty()) {
            add(rests_table(a_));
            plain(sentences::rests_note);
            heading(sentences::backtest_heading);
            bool any = false;
            for (const auto& d : o_.datasets) {
                if (!d.backtest) continue;
                plain(backtest_in_words(d));
                any = true;
            }
            if (!any) plain(sentences::backtest_none);
        }
        bool driven = false;
        for (const auto& b : o_.boxes) {
            ReportTable table = drivers_table(o_, b.name);
            if (table.rows.empty()) continue;
            add(std::move(table));
            driven = true;
        }
        if (driven) plain(sentences::drivers_note);
        ReportList assumed = findings_about("/datasets", true);
        if (assumed.items.empty()) return;
        heading(sentences::assumed_heading);
        add(std::move(assumed));
    }

    void cautions() {
        section(sentences::cautions_heading);
        ReportList list;
        for (const auto sentence : {sentences::caution_backup, sentences::caution_offline, sentences::caution_past,
                                    sentences::caution_work})
            list.items.push_back({Level::note, {}, text(sentence)});
        // What is about nothing that was named yet, whatever it is, is said here: no finding is lost.
        for (std::size_t i = 0; i < a_.findings.size(); ++i)
            if (!said_[i])
                list.items.push_back({a_.findings[i].level, mark_of(a_.findings[i].level), a_.findings[i].text});
        add(std::move(list));
    }

    const Answer& a_;
    const Outlook& o_;
    ReportContent r_;
    Explainer explainer_;
    std::vector<bool> said_;
};

}  // namespace

ReportContent report_of(const Answer& answer) { return ReportWriter(answer).write(); }

}  // namespace ullage
