// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/forms/kind_forms.h"
#include "ui/forms/shared_fields.h"
#include "ui/ladder/ladder_field.h"

#include <algorithm>

namespace ullage::ui {

namespace {

enum class LadderKind { as_source, keep_all, own };

LadderKind kindOf(const BoxLadder& ladder) {
    if (std::holds_alternative<KeepAll>(ladder)) return LadderKind::keep_all;
    if (std::holds_alternative<Ladder>(ladder)) return LadderKind::own;
    return LadderKind::as_source;
}

class SendForm : public ItemForm<Send> {
    Q_DECLARE_TR_FUNCTIONS(ullage::ui::SendForm)

public:
    SendForm(SiteDocument& site_document, QWidget* parent)
        : ItemForm<Send>(
              site_document, ItemKind::send,
              [](Site& site, int index) -> Send& {
                  return site.sends[static_cast<std::size_t>(index)];
              },
              parent) {
        addRoute();
        addSchedule();
        addLadder();
        addFirstCopy();
    }

private:
    void addRoute() {
        beginSection(tr("Send"));
        name(tr("Name"));
        addDatasets();
        reference(tr("From"), QStringLiteral("/from"), ItemKind::box, &Send::from);
        reference(tr("To"), QStringLiteral("/to"), ItemKind::box, &Send::to);
        reference(tr("Over"), QStringLiteral("/over"), ItemKind::link, &Send::over);
    }

    void addDatasets() {
        const QString label = tr("Carries"), key = QStringLiteral("/datasets");
        ChecksField::Binding binding;
        binding.names = [this] {
            QStringList names;
            for (const Dataset& dataset : document().site().datasets)
                names << QString::fromStdString(dataset.name);
            return names;
        };
        binding.checked = [this] {
            QStringList names;
            for (const std::string& dataset : now().datasets)
                names << QString::fromStdString(dataset);
            return names;
        };
        binding.commit = [this, label, key](const QString& dataset, bool on) {
            return commit(label, key, [&](Site& site) {
                std::vector<std::string>& carried = in(site).datasets;
                std::erase(carried, dataset.toStdString());
                if (on) carried.push_back(dataset.toStdString());
                return QString();
            });
        };
        add(new ChecksField(label, key, std::move(binding), this));
    }

    void addSchedule() {
        beginSection(tr("Runs"));
        choice<int>(
            tr("Starts"), QStringLiteral("/start/after_each_snapshot"),
            {{0, tr("by the clock")}, {1, tr("after each new snapshot")}},
            [](const Send& it) { return it.after_each_snapshot ? 1 : 0; },
            [](Send& it, int after_each) { it.after_each_snapshot = after_each == 1; })
            ->setHint(tr("After each new snapshot: as soon as the box that it comes from has one, "
                         "taken there or brought there by another send."));
        const auto by_clock = [this] { return !now().after_each_snapshot; };
        quantity(tr("Every"), QStringLiteral("/start/every"), &Send::every)
            ->setHint(tr("such as 1 d or 6 h"))
            ->setShownWhen(by_clock);
        value(tr("First at"), QStringLiteral("/start/at"), timeOfDay(), &Send::at)
            ->setHint(tr("Time of the day, in the site's time zone."))
            ->setShownWhen(by_clock);
        choice<Send::Steps>(tr("Sends"), QStringLiteral("/steps"),
                            {{Send::Steps::newest, tr("one step to the newest")},
                             {Send::Steps::every, tr("every snapshot between")}},
                            &Send::steps);
        choice<Send::Payload>(tr("Blocks"), QStringLiteral("/payload"),
                              {{Send::Payload::stored, tr("as stored")},
                               {Send::Payload::expanded, tr("uncompressed")},
                               {Send::Payload::sealed, tr("encrypted as stored")}},
                              &Send::payload);
        value(tr("Stream ratio"), QStringLiteral("/stream_ratio"), number(), &Send::stream_ratio)
            ->setHint(tr("If the stream is compressed again on its way: before ÷ after."))
            ->setShownWhen([this] { return now().payload == Send::Payload::expanded; });
        quantity(tr("Cipher rate"), QStringLiteral("/cipher_rate"), &Send::cipher_rate)
            ->setPlaceholder(tr("no limit"))
            ->setHint(tr("What one core encrypts, in bytes per second, such as 400 MB/s."));
    }

    void addLadder() {
        beginSection(tr("Kept on the receiving box"));
        choice<LadderKind>(
            tr("Ladder"), QStringLiteral("/ladder"),
            {{LadderKind::as_source, tr("as the source")},
             {LadderKind::keep_all, tr("keeps all")},
             {LadderKind::own, tr("its own")}},
            [](const Send& it) { return kindOf(it.ladder); },
            [this](Send& it, LadderKind chosen) {
                switch (chosen) {
                    case LadderKind::as_source:
                        it.ladder = AsSource{};
                        break;
                    case LadderKind::keep_all:
                        it.ladder = KeepAll{};
                        break;
                    case LadderKind::own:
                        it.ladder = ladderOfSource(it);
                        break;
                }
            });
        add(new LadderField(
            tr("Snapshots kept"), QStringLiteral("/ladder/timeline"),
            [this]() -> LadderField::Shown {
                const auto* own = std::get_if<Ladder>(&now().ladder);
                return {own ? *own : Ladder(), document().site().as_of, document().site().time_zone};
            },
            this))
            ->setLabelledByHeading()
            ->setShownWhen([this] { return kindOf(now().ladder) == LadderKind::own; });
        table<Rung>(
            tr("Its rungs"), QStringLiteral("/ladder"), ladderColumns(),
            [](Send& it) -> std::vector<Rung>& {
                if (!std::holds_alternative<Ladder>(it.ladder)) it.ladder = Ladder{};
                return std::get<Ladder>(it.ladder);
            },
            rungCells, writeRungCell, freshRung, false)
            ->setEmptyText(tr("No snapshot is kept."))
            ->setShownWhen([this] { return kindOf(now().ladder) == LadderKind::own; });
        choice<int>(
            tr("Last sent"), QStringLiteral("/hold_last_sent"),
            {{0, tr("expires as the others")}, {1, tr("held until the next arrives")}},
            [](const Send& it) { return it.hold_last_sent ? 1 : 0; },
            [](Send& it, int held) { it.hold_last_sent = held == 1; })
            ->setHint(tr("Holding the last sent snapshot at the source lets any outage end without "
                         "sending everything again."));
    }

    /// How the box that it comes from keeps its first dataset: by the ladder of the send that
    /// brings it there, if that has one of its own, else by the dataset's.
    Ladder ladderOfSource(const Send& send) const {
        const Site& site = document().site();
        if (send.datasets.empty()) return {freshRung({})};
        const std::string& carried = send.datasets.front();
        std::string box = send.from;
        for (std::size_t steps = 0; steps < site.sends.size(); ++steps) {
            const auto bringer =
                std::find_if(site.sends.begin(), site.sends.end(), [&](const Send& s) {
                    return s.to == box && std::find(s.datasets.begin(), s.datasets.end(),
                                                    carried) != s.datasets.end();
                });
            if (bringer == site.sends.end()) break;
            if (const auto* own = std::get_if<Ladder>(&bringer->ladder)) return *own;
            box = bringer->from;
        }
        for (const Dataset& dataset : site.datasets)
            if (dataset.name == carried) return dataset.ladder;
        return {freshRung({})};
    }

    void addFirstCopy() {
        beginSection(tr("First copy"));
        choice<FirstCopy::By>(
            tr("Goes"), QStringLiteral("/first_copy/by"),
            {{FirstCopy::By::link, tr("over the link")},
             {FirstCopy::By::courier, tr("by courier")},
             {FirstCopy::By::present, tr("is there already")}},
            [](const Send& it) { return it.first_copy.by; },
            [](Send& it, FirstCopy::By by) {
                it.first_copy.by = by;
                if (by == FirstCopy::By::courier && !it.first_copy.copy_rate)
                    it.first_copy.copy_rate = Entered<BytesPerSecond>{{150e6}, "150 MB/s"};
            });
        const auto by_courier = [this] { return now().first_copy.by == FirstCopy::By::courier; };
        quantity<BytesPerSecond>(
            tr("Copy rate"), QStringLiteral("/first_copy/copy_rate"),
            [](const Send& it) { return it.first_copy.copy_rate; },
            [](Send& it, const std::optional<Entered<BytesPerSecond>>& typed) {
                it.first_copy.copy_rate = typed;
            },
            true)
            ->setHint(tr("On to the drives that travel, such as 180 MB/s."))
            ->setShownWhen(by_courier);
        value<double>(
            tr("Days away"), QStringLiteral("/first_copy/days_away"), number(),
            [](const Send& it) { return it.first_copy.days_away; },
            [](Send& it, double typed) { it.first_copy.days_away = typed; })
            ->setHint(tr("From the end of the copy to the drives running at the other end."))
            ->setShownWhen(by_courier);
    }
};

}  // namespace

Form* makeSendForm(SiteDocument& document, QWidget* parent) {
    return new SendForm(document, parent);
}

}  // namespace ullage::ui
