// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/forms/kind_forms.h"
#include "ui/forms/shared_fields.h"
#include "ui/ladder/ladder_field.h"

#include <QDir>
#include <QFileDialog>

namespace ullage::ui {

namespace {

using AmountOfTurnover = std::optional<Entered<Amount>> Turnover::*;

/// A turnover that says nothing is none.
void dropIfEmpty(Dataset& dataset) {
    if (dataset.turnover && *dataset.turnover == Turnover{}) dataset.turnover.reset();
}

Turnover& turnoverOf(Dataset& dataset) {
    return dataset.turnover ? *dataset.turnover : dataset.turnover.emplace();
}

QList<Choice> eventKinds() {
    return {{QStringLiteral("0"), Form::tr("adds")},
            {QStringLiteral("1"), Form::tr("removes")},
            {QStringLiteral("2"), Form::tr("rewrites")},
            {QStringLiteral("3"), Form::tr("moves")}};
}

class DatasetForm : public ItemForm<Dataset> {
    Q_DECLARE_TR_FUNCTIONS(ullage::ui::DatasetForm)

public:
    DatasetForm(SiteDocument& site_document, QWidget* parent)
        : ItemForm<Dataset>(
              site_document, ItemKind::dataset,
              [](Site& site, int index) -> Dataset& {
                  return site.datasets[static_cast<std::size_t>(index)];
              },
              parent) {
        addWhatItIs();
        addGrowth();
        addTurnover();
        addLadder();
        addEvents();
        addMeasured();
    }

private:
    void addWhatItIs() {
        beginSection(tr("Dataset"));
        name(tr("Name"));
        reference(tr("Lives on"), QStringLiteral("/home"), ItemKind::box, &Dataset::home,
                  tr("no box of this site"));
        choice<Dataset::Kind>(
            tr("Holds"), QStringLiteral("/kind"),
            {{Dataset::Kind::files, tr("files")}, {Dataset::Kind::volume, tr("a volume")}},
            &Dataset::kind);
        quantity(tr("Block size"), QStringLiteral("/block_size"), &Dataset::block_size)
            ->setHint(tr("The largest block of a file, the exact block of a volume."));
        quantity<Bytes>(
            tr("Size as stored"), QStringLiteral("/live"),
            [](const Dataset& it) { return it.live; },
            [](Dataset& it, const std::optional<Entered<Bytes>>& typed) {
                it.live = typed;
                if (typed) it.logical.reset();
            },
            true)
            ->setHint(tr("Compressed, without snapshots. The size before compression follows from "
                         "the ratio; a listing gives it too."));
        quantity<Bytes>(
            tr("or uncompressed"), QStringLiteral("/logical"),
            [](const Dataset& it) { return it.logical; },
            [](Dataset& it, const std::optional<Entered<Bytes>>& typed) {
                it.logical = typed;
                if (typed) it.live.reset();
            },
            true)
            ->setHint(tr("Before compression; typed instead of the size as stored."));
        value(tr("Compression ratio"), QStringLiteral("/compression_ratio"), optionalNumber(),
              &Dataset::compression_ratio)
            ->setPlaceholder(QStringLiteral("1"))
            ->setHint(tr("Uncompressed size ÷ stored size, 1 or more."));
        value(tr("… its spread"), QStringLiteral("/compression_spread"), optionalShare(),
              &Dataset::compression_spread)
            ->setPlaceholder(QStringLiteral("0 %"))
            ->setHint(tr("Relative standard deviation: how far off the ratio may be."));
    }

    void addGrowth() {
        beginSection(tr("Growth"));
        quantity<Amount>(
            tr("In a year"), QStringLiteral("/growth/per_year"),
            [](const Dataset& it) {
                return it.growth ? std::optional(it.growth->per_year) : std::nullopt;
            },
            [](Dataset& it, const std::optional<Entered<Amount>>& typed) {
                if (!typed)
                    it.growth.reset();
                else
                    (it.growth ? *it.growth : it.growth.emplace()).per_year = *typed;
            },
            true)
            ->setHint(tr("A size or a share of what is there, such as 1.6 TB or 20 %. May be "
                         "negative."));
        value<std::optional<double>>(
            tr("… its spread"), QStringLiteral("/growth/spread"), optionalShare(),
            [](const Dataset& it) {
                return it.growth ? it.growth->spread : std::optional<double>();
            },
            [](Dataset& it, std::optional<double> typed) {
                if (it.growth) it.growth->spread = typed;
            })
            ->setHint(tr("Relative standard deviation: how far off the figure may be."))
            ->setShownWhen([this] { return now().growth.has_value(); });
    }

    TextField* turnoverAmount(const QString& label, const QString& key, AmountOfTurnover member) {
        return quantity<Amount>(
            label, key,
            [member](const Dataset& it) {
                return it.turnover ? (*it.turnover).*member : std::optional<Entered<Amount>>();
            },
            [member](Dataset& it, const std::optional<Entered<Amount>>& typed) {
                turnoverOf(it).*member = typed;
                dropIfEmpty(it);
            },
            true);
    }

    void addTurnover() {
        beginSection(tr("Change"));
        turnoverAmount(tr("Written in a day"), QStringLiteral("/turnover/per_day"),
                       &Turnover::per_day)
            ->setHint(tr("What a daily snapshot adds, growth included: a size or a share."));
        turnoverAmount(tr("… in a week"), QStringLiteral("/turnover/per_week"), &Turnover::per_week)
            ->setHint(tr("What a weekly snapshot adds; less than seven days, since some blocks are "
                         "written again."));
        turnoverAmount(tr("… in 30 days"), QStringLiteral("/turnover/per_month"),
                       &Turnover::per_month);
        value<std::optional<double>>(
            tr("… its spread"), QStringLiteral("/turnover/spread"), optionalShare(),
            [](const Dataset& it) {
                return it.turnover ? it.turnover->spread : std::optional<double>();
            },
            [](Dataset& it, std::optional<double> typed) {
                turnoverOf(it).spread = typed;
                dropIfEmpty(it);
            })
            ->setHint(tr("Relative standard deviation: how far off the figures may be."));
        value(tr("Shape of a week"), QStringLiteral("/week_shape"), optionalWeek(),
              &Dataset::week_shape)
            ->setPlaceholder(QStringLiteral("1 1 1 1 1 0.3 0.1"))
            ->setHint(tr("Seven numbers, Monday first: how much is written on each day, "
                         "relative."));
    }

    void addLadder() {
        beginSection(tr("Snapshots kept"));
        add(new LadderField(
            tr("Snapshots kept"), QStringLiteral("/ladder/timeline"),
            [this]() -> LadderField::Shown {
                return {now().ladder, document().site().as_of, document().site().time_zone};
            },
            this))
            ->setLabelledByHeading()
            ->setShownWhen([this] { return !now().ladder.empty(); });
        table<Rung>(
            tr("Ladder"), QStringLiteral("/ladder"), ladderColumns(),
            [](Dataset& it) -> std::vector<Rung>& { return it.ladder; }, rungCells, writeRungCell,
            freshRung, false)
            ->setEmptyText(tr("No snapshot is kept."))
            ->setLabelledByHeading();
    }

    void addEvents() {
        beginSection(tr("Planned events"));
        table<Event>(
            tr("Events"), QStringLiteral("/events"),
            {{tr("On"), 5, {}, tr("A date, such as 2027-03-01")},
             {tr("What"), 4, eventKinds(), {}},
             {tr("Size"), 4, {}, tr("such as 2.5 TB or 10 %")},
             {tr("Note"), 5, {}, {}}},
            [](Dataset& it) -> std::vector<Event>& { return it.events; },
            [](const Event& event) {
                return QStringList{QString::fromStdString(format_date(event.on)),
                                   QString::number(static_cast<int>(event.kind)),
                                   textOf(event.amount), QString::fromStdString(event.note)};
            },
            [](Event& event, int column, const QString& typed) {
                if (column == 0) {
                    const auto on = date().read(typed);
                    if (!on) return QString::fromStdString(on.error());
                    event.on = *on;
                } else if (column == 1) {
                    event.kind = static_cast<Event::Kind>(typed.toInt());
                } else if (column == 2) {
                    return readEntered(typed, event.amount);
                } else {
                    event.note = typed.toStdString();
                }
                return QString();
            },
            [this](const std::vector<Event>& events) {
                Event event;
                event.on = events.empty() ? add_days(document().site().as_of, days_per_year)
                                          : add_days(events.back().on, days_per_month);
                event.amount = Entered<Amount>{{1e12, Amount::Of::bytes}, "1 TB"};
                return event;
            },
            false)
            ->setEmptyText(tr("None: nothing but steady growth."))
            ->setLabelledByHeading();
    }

    /// A path as the site will name it, chosen by the user; empty if none was.
    QString askForFile(const QString& title) {
        const QString folder = document().folder();
        const QString chosen = QFileDialog::getOpenFileName(window(), title, folder);
        if (chosen.isEmpty() || folder.isEmpty()) return chosen;
        return QDir(folder).relativeFilePath(chosen);
    }

    void addMeasured() {
        beginSection(tr("Measured"));
        text(
            tr("Snapshot listing"), QStringLiteral("/turnover/listing"),
            [](const Dataset& it) {
                return it.turnover ? QString::fromStdString(it.turnover->listing) : QString();
            },
            [](Dataset& it, const QString& typed) {
                turnoverOf(it).listing = typed.trimmed().toStdString();
                dropIfEmpty(it);
                return QString();
            })
            ->setPlaceholder(tr("a file"))
            ->setButton(tr("Choose…"), [this] { return askForFile(tr("Choose a listing")); })
            ->setHint(tr("Gives size, growth and change; what is typed above wins over it."));
        text(
            tr("… of dataset"), QStringLiteral("/turnover/listing_dataset"),
            [](const Dataset& it) {
                return it.turnover ? QString::fromStdString(it.turnover->listing_dataset)
                                   : QString();
            },
            [](Dataset& it, const QString& typed) {
                turnoverOf(it).listing_dataset = typed.trimmed().toStdString();
                dropIfEmpty(it);
                return QString();
            })
            ->setPlaceholder(tr("the same name, or the only one"))
            ->setShownWhen([this] { return now().turnover && !now().turnover->listing.empty(); });
        text(
            tr("… columns"), QStringLiteral("/turnover/listing_columns"),
            [](const Dataset& it) {
                QStringList columns;
                if (it.turnover)
                    for (const auto& role : it.turnover->listing_columns) columns << QString::fromStdString(role);
                return columns.join(QStringLiteral(", "));
            },
            [](Dataset& it, const QString& typed) {
                auto& columns = turnoverOf(it).listing_columns;
                columns.clear();
                for (const QString& role : typed.split(QLatin1Char(','), Qt::SkipEmptyParts))
                    columns.push_back(role.trimmed().toStdString());
                dropIfEmpty(it);
                return QString();
            })
            ->setPlaceholder(tr("as its first row says"))
            ->setHint(tr("What each column is, in order: snapshot, taken, unique, live, written; - for one that is "
                         "not used."))
            ->setShownWhen([this] { return now().turnover && !now().turnover->listing.empty(); });
        choice<int>(
            tr("… bad lines"), QStringLiteral("/turnover/listing_skip_bad_lines"),
            {{0, tr("are an error")}, {1, tr("are left out")}},
            [](const Dataset& it) { return it.turnover && it.turnover->listing_skip_bad_lines ? 1 : 0; },
            [](Dataset& it, int skip) {
                turnoverOf(it).listing_skip_bad_lines = skip == 1;
                dropIfEmpty(it);
            })
            ->setShownWhen([this] { return now().turnover && !now().turnover->listing.empty(); });
        plainText(tr("Longer history"), QStringLiteral("/usage"), &Dataset::usage)
            ->setPlaceholder(tr("a file"))
            ->setButton(tr("Choose…"), [this] { return askForFile(tr("Choose a history")); })
            ->setHint(tr("Times and sizes over a longer while, for the growth."));
    }
};

}  // namespace

Form* makeDatasetForm(SiteDocument& document, QWidget* parent) {
    return new DatasetForm(document, parent);
}

}  // namespace ullage::ui
