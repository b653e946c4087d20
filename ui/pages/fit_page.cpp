// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/pages/fit_page.h"

#include "ui/charts/fill_chart.h"
#include "ui/compare/differences.h"
#include "ui/gauge/days_until_full_gauge.h"
#include "ui/gauge/gauge_card.h"
#include "ui/theme/theme.h"
#include "ui/theme/tile_layout.h"

#include <QFrame>
#include <QHBoxLayout>
#include <QLabel>
#include <QVBoxLayout>

#include <algorithm>

namespace ullage {
namespace {

// Worst first.
int rank(Level level) {
    switch (level) {
        case Level::overruns:
            return 0;
        case Level::tight:
            return 1;
        case Level::fits:
            return 2;
        case Level::note:
            break;
    }
    return 3;
}

}  // namespace

FitPage::FitPage(QWidget* parent) : Page(parent) { refresh(); }

/// With the first box to show: while the first forecast is worked out the window is there sooner.
void FitPage::makeSheet() {
    strip_ = new QWidget;
    strip_->setAccessibleName(tr("All boxes"));
    tiles_ = new TileLayout(GaugeCard::leastWidth(font()), 10, strip_);
    notice_ = new QLabel;
    notice_->setWordWrap(true);
    notice_->setTextFormat(Qt::PlainText);
    notice_->setObjectName(QStringLiteral("fitNotice"));
    gauge_ = new DaysUntilFullGauge;
    gauge_->setObjectName(QStringLiteral("gauge"));
    line_ = new QFrame;
    line_->setFixedHeight(1);
    line_->setAutoFillBackground(true);
    chart_ = new FillChart;
    chart_->setObjectName(QStringLiteral("fillChart"));

    // The gauge keeps room for its focus ring; what stands above and below is set in as far.
    constexpr int room = static_cast<int>(ring_room);
    tiles_->setContentsMargins(room, 2, room, 0);
    notice_->setContentsMargins(room, 0, room, 0);
    chart_->layout()->setContentsMargins(room, 0, room, 0);
    sheet()->addWidget(strip_);
    sheet()->addWidget(notice_);
    sheet()->addWidget(gauge_);
    auto* line_row = new QHBoxLayout;
    line_row->setContentsMargins(room, 0, room, 0);
    line_row->addWidget(line_);
    sheet()->addLayout(line_row);
    sheet()->addWidget(chart_, 1);
    connect(chart_, &FillChart::eventWanted, this, [this](Day day) {
        if (const QString box = shownItem(); !box.isEmpty()) emit eventWanted(box, day);
    });
    chart_->setPrefixes(prefixes_);
    retheme();
}

/// Says what is there instead of boxes.
void FitPage::showNone(const QString& headline, const QString& detail) {
    if (gauge_) {
        gauge_->setBox(nullptr, 1, {}, Level::note);
        chart_->setBox(nullptr, 1, {});
    }
    say(headline, detail);
}

int FitPage::siteIndex(const std::string& box) const {
    if (!answer()) return -1;
    const auto& boxes = answer()->site.boxes;
    const auto at =
        std::find_if(boxes.begin(), boxes.end(), [&](const Box& b) { return b.name == box; });
    return at == boxes.end() ? -1 : static_cast<int>(at - boxes.begin());
}

QString FitPage::shownItem() const {
    const int index = shown_.empty() ? -1 : siteIndex(shown_);
    return index < 0 ? QString() : QStringLiteral("/boxes/%1").arg(index);
}

void FitPage::setPrefixes(Prefixes prefixes) {
    prefixes_ = prefixes;
    if (chart_) chart_->setPrefixes(prefixes);
}

void FitPage::showItem(const QString& pointer) {
    const int index = indexIn(pointer, QStringLiteral("boxes"));
    if (index < 0 || !answer() || index >= static_cast<int>(answer()->site.boxes.size())) return;
    const std::string& name = answer()->site.boxes[static_cast<std::size_t>(index)].name;
    const auto& boxes = answer()->outlook.boxes;
    const bool forecast = std::any_of(boxes.begin(), boxes.end(),
                                      [&](const BoxOutlook& b) { return b.name == name; });
    if (forecast) {
        shown_ = name;
        not_forecast_.clear();
    } else {
        not_forecast_ = name;
    }
    refresh();
}

void FitPage::choose(int card) {
    if (!answer() || card < 0 || card >= static_cast<int>(answer()->outlook.boxes.size())) return;
    shown_ = answer()->outlook.boxes[static_cast<std::size_t>(card)].name;
    not_forecast_.clear();
    refresh();
    const QString pointer = shownItem();
    if (!pointer.isEmpty()) emit itemChosen(pointer);
}

void FitPage::refresh() {
    if (!answer()) {
        if (state() == ShownState::updating)
            showNone(tr("Working out the forecast…"),
                     tr("How full each box gets, and when, appears here."));
        else if (state() == ShownState::failed)
            showNone(tr("No forecast"), tr("The calculation failed. What to mend is said below."));
        else if (state() == ShownState::cancelled)
            showNone(tr("No forecast"), tr("The calculation was cancelled."));
        else
            showNone(tr("No answer yet"), tr("How full each box gets, and when, appears here."));
        return;
    }
    const Outlook& outlook = answer()->outlook;
    if (outlook.boxes.empty()) {
        showNone(tr("No box to forecast"),
                 tr("Give a box its drives, or its usable size, and the day it fills up appears here."));
        return;
    }
    if (!gauge_) makeSheet();
    say({}, {});

    while (cards_.size() > outlook.boxes.size()) {
        delete cards_.back();
        cards_.pop_back();
    }
    while (cards_.size() < outlook.boxes.size()) {
        auto* card = new GaugeCard;
        const int index = static_cast<int>(cards_.size());
        connect(card, &QAbstractButton::clicked, this, [this, index] { choose(index); });
        tiles_->addWidget(card);
        card->show();
        cards_.push_back(card);
    }
    std::vector<Level> levels;
    for (const BoxOutlook& box : outlook.boxes)
        levels.push_back(status_of(box, outlook.horizon_days));

    auto at = std::find_if(outlook.boxes.begin(), outlook.boxes.end(),
                           [this](const BoxOutlook& b) { return b.name == shown_; });
    if (at == outlook.boxes.end()) {
        const auto worst = std::min_element(levels.begin(), levels.end(),
                                            [](Level a, Level b) { return rank(a) < rank(b); });
        at = outlook.boxes.begin() + (worst - levels.begin());
        shown_ = at->name;
    }
    const auto shown = static_cast<std::size_t>(at - outlook.boxes.begin());
    for (std::size_t i = 0; i < cards_.size(); ++i) {
        cards_[i]->setBox(&outlook.boxes[i], outlook.horizon_days, outlook.as_of, levels[i]);
        cards_[i]->setObjectName(QStringLiteral("card%1").arg(i));
    }
    for (std::size_t i = 1; i < cards_.size(); ++i) setTabOrder(cards_[i - 1], cards_[i]);
    setTabOrder(cards_.back(), gauge_);
    cards_[shown]->setChecked(true);
    strip_->setVisible(cards_.size() > 1 || kept_);
    tiles_->invalidate();

    notice_->setVisible(!not_forecast_.empty());
    notice_->setText(
        tr("%1 has neither drives nor a usable size, so it is not forecast. Shown instead: %2.")
            .arg(QString::fromStdString(not_forecast_), QString::fromStdString(shown_)));
    gauge_->setBox(&*at, outlook.horizon_days, outlook.as_of, levels[shown]);
    chart_->setBox(&*at, outlook.horizon_days, outlook.as_of);
    showKept();
}

void FitPage::setKept(std::optional<KeptOutlook> kept) {
    kept_ = std::move(kept);
    refresh();
}

/// The kept side of each picture of the present.
void FitPage::showKept() {
    for (std::size_t i = 0; i < cards_.size(); ++i)
        cards_[i]->setKept(kept_ ? kept_headline(*kept_, answer()->outlook.boxes[i].name)
                                 : QString());
    chart_->setKept(kept_ ? box_of(*kept_, shown_) : nullptr, kept_ ? kept_->name : QString());
}

void FitPage::applyState() {
    if (!gauge_) return;
    for (auto* card : cards_) card->setState(state());
    gauge_->setState(state());
    chart_->setState(state());
}

void FitPage::retheme() {
    if (!gauge_) return;
    const Theme theme = Theme::of(palette());
    tiles_->setLeastWidth(GaugeCard::leastWidth(font()));
    QPalette rule;
    rule.setColor(QPalette::Window, theme.rule);
    line_->setPalette(rule);
    set_text_colour(*notice_, theme.muted);
}

}  // namespace ullage
