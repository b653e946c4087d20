// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/compare/differences.h"

#include "ui/gauge/gauge_text.h"
#include "ui/theme/words.h"

#include <QCoreApplication>
#include <QLocale>

#include <algorithm>
#include <cmath>
#include <functional>
#include <optional>

namespace ullage {
namespace {

struct Text {
    Q_DECLARE_TR_FUNCTIONS(ullage::Differences)
};

using Cell = NumberTable::Cell;
using Number = std::optional<double>;

/// How a kind of figure is written.
struct Kind {
    std::function<QString(double)> say;  ///< a value
    QString absent;                      ///< instead of a value
    std::function<QString(double)> size_of_change;
    QString more, less;  ///< with %1 for the size of the change
};

Cell cell(const QString& text, const Number& value) {
    return {text, value ? QVariant(*value) : QVariant(), {}};
}

class Writer {
public:
    Writer(const KeptOutlook& kept, const Answer& present, Prefixes prefixes)
        : kept_(*kept.answer), present_(present), prefixes_(prefixes) {
        content_.header = {Text::tr("Item"), Text::tr("Figure"), kept.name, Text::tr("Now"),
                           Text::tr("Change")};
    }

    NumberTable::Content write() {
        each(kept_.outlook.boxes, present_.outlook.boxes, [this](auto* before, auto* now) {
            boxRows(before, now);
        });
        each(kept_.outlook.sends, present_.outlook.sends, [this](auto* before, auto* now) {
            sendRows(before, now);
        });
        each(kept_.outlook.offers, present_.outlook.offers, [this](auto* before, auto* now) {
            offerRows(before, now);
        });
        return std::move(content_);
    }

private:
    /// In the present order, then what is gone.
    template <class Item, class Rows>
    void each(const std::vector<Item>& before, const std::vector<Item>& now, Rows rows) {
        const auto find = [](const std::vector<Item>& in, const std::string& name) {
            const auto at = std::find_if(in.begin(), in.end(),
                                         [&](const Item& item) { return item.name == name; });
            return at == in.end() ? nullptr : &*at;
        };
        for (const Item& item : now) rows(find(before, item.name), &item);
        for (const Item& item : before)
            if (!find(now, item.name)) rows(&item, static_cast<const Item*>(nullptr));
    }

    template <class Item, class Value>
    void row(const Item* before, const Item* now, const QString& figure, const Kind& kind,
             Value value) {
        const Number kept = before ? value(*before) : Number();
        const Number present = now ? value(*now) : Number();
        const auto said = [&](const Item* item, const Number& number) {
            if (!item) return Text::tr("not there");
            return number ? kind.say(*number) : kind.absent;
        };
        const QString name = QString::fromStdString(before ? before->name : now->name);
        Number change;
        QString words;
        if (!before) {
            words = Text::tr("new");
        } else if (!now) {
            words = Text::tr("gone");
        } else if (kept && present) {
            change = *present - *kept;
            words = changeWords(*change, said(before, kept) == said(now, present), kind);
        } else {
            words = kept.has_value() == present.has_value() ? Text::tr("the same")
                                                            : Text::tr("another");
        }
        content_.rows.push_back({Cell::words(name), Cell::words(figure),
                                 cell(said(before, kept), kept), cell(said(now, present), present),
                                 cell(words, change)});
    }

    /// A change too small to be seen in the two values is none.
    static QString changeWords(double change, bool reads_alike, const Kind& kind) {
        if (change == 0) return Text::tr("the same");
        if (reads_alike) return Text::tr("hardly any");
        return (change > 0 ? kind.more : kind.less).arg(kind.size_of_change(std::abs(change)));
    }

    Kind days() const {
        const auto span = [](double d) { return Words::span(d); };
        return {span, Text::tr("not within %1").arg(Words::horizon(present_.outlook.horizon_days)),
                span, Text::tr("%1 later"), Text::tr("%1 sooner")};
    }
    static Kind more(std::function<QString(double)> say, const QString& absent) {
        return {say, absent, say, Text::tr("%1 more"), Text::tr("%1 less")};
    }
    static Kind share() {
        return {[](double s) { return Words::percent(s, 3); }, {},
                [](double s) {
                    return Text::tr("%1 percentage points").arg(QLocale().toString(100 * s, 'g', 2));
                },
                Text::tr("%1 more"), Text::tr("%1 less")};
    }

    void boxRows(const BoxOutlook* before, const BoxOutlook* now) {
        const auto passage = [&](const QString& figure, Number DayQuantiles::*quantile) {
            row(before, now, figure, days(),
                [quantile](const BoxOutlook& box) { return box.days_until_ceiling.*quantile; });
        };
        passage(Text::tr("until its ceiling, 1 in 10 futures"), &DayQuantiles::p10);
        passage(Text::tr("until its ceiling, 5 in 10 futures"), &DayQuantiles::p50);
        passage(Text::tr("until its ceiling, 9 in 10 futures"), &DayQuantiles::p90);
        row(before, now, Text::tr("used at the end, middle"),
            more([p = prefixes_](double b) { return Words::bytes(b, p); }, Text::tr("no figure")),
            [](const BoxOutlook& box) {
                return box.fill.empty() ? Number() : Number(box.fill.back().used_bytes.p50);
            });
    }
    void sendRows(const SendOutlook* before, const SendOutlook* now) {
        row(before, now, Text::tr("runs that are late"), share(),
            [](const SendOutlook& send) { return Number(send.chance_of_missing_window); });
        row(before, now, Text::tr("longest outage it can bear"),
            more([](double d) { return Words::span(d); }, Text::tr("no limit")),
            [](const SendOutlook& send) { return send.longest_outage_days; });
    }
    void offerRows(const OfferOutlook* before, const OfferOutlook* now) {
        row(before, now, Text::tr("chance of lasting"), share(),
            [](const OfferOutlook& offer) { return Number(offer.chance_of_lasting); });
        row(before, now, Text::tr("cost over the horizon"),
            more([currency = present_.outlook.currency](
                     double m) { return Words::money(m, currency); },
                 {}),
            [](const OfferOutlook& offer) { return Number(offer.cost_total); });
    }

    const Answer& kept_;
    const Answer& present_;
    Prefixes prefixes_;
    NumberTable::Content content_;
};

}  // namespace

NumberTable::Content differences(const KeptOutlook& kept, const PresentOutlook& present,
                                 Prefixes prefixes) {
    return present.answer ? Writer(kept, *present.answer, prefixes).write()
                          : NumberTable::Content();
}

QString kept_headline(const KeptOutlook& kept, const std::string& box) {
    const BoxOutlook* before = box_of(kept, box);
    const Outlook& outlook = kept.answer->outlook;
    return Text::tr("%1: %2", "name of what was kept, its headline")
        .arg(kept.name,
             before ? GaugeText::of(*before, outlook.horizon_days, outlook.as_of,
                                    status_of(*before, outlook.horizon_days))
                          .headline
                    : Text::tr("not there"));
}

}  // namespace ullage
