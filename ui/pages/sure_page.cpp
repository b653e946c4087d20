// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/pages/sure_page.h"

#include "ui/sure/backtest_chart.h"
#include "ui/sure/chart_section.h"
#include "ui/sure/driver_bars.h"
#include "ui/sure/sure_tables.h"
#include "ui/sure/sure_text.h"
#include "ui/sure/turnover_chart.h"
#include "ui/theme/sentence_list.h"
#include "ui/theme/theme.h"
#include "ui/theme/words.h"

#include <QComboBox>
#include <QFrame>
#include <QLabel>
#include <QSignalBlocker>
#include <QVBoxLayout>

#include <algorithm>

namespace ullage {
namespace {

// Where the thing of that name stands in a list; −1 if it is not there.
template <class List>
int index_of(const List& list, const std::string& name) {
    const auto at =
        std::find_if(list.begin(), list.end(), [&](const auto& item) { return item.name == name; });
    return at == list.end() ? -1 : static_cast<int>(at - list.begin());
}

template <class List>
QString pointer_of(const QString& kind, const List& list, const std::string& name) {
    const int index = name.empty() ? -1 : index_of(list, name);
    return index < 0 ? QString() : QStringLiteral("/%1/%2").arg(kind).arg(index);
}

const QString datasets = QStringLiteral("datasets"), boxes = QStringLiteral("boxes");

}  // namespace

SurePage::SurePage(QWidget* parent) : Page(parent) {
    state_text_ = new QLabel;
    state_text_->setTextFormat(Qt::PlainText);
    state_text_->setContentsMargins(static_cast<int>(ring_room), 0, 0, 0);
    dataset_ = makeChooser(tr("&Dataset"), QStringLiteral("datasetChooser"));
    box_ = makeChooser(tr("&Box"), QStringLiteral("boxChooser"));
    curve_ = new TurnoverChart;
    live_chart_ = new BacktestChart(Figure::live);
    freed_chart_ = new BacktestChart(Figure::freed);
    bars_ = new DriverBars;
    turnover_ = new ChartSection(curve_, QStringLiteral("turnover"));
    live_ = new ChartSection(live_chart_, QStringLiteral("backtestLive"));
    freed_ = new ChartSection(freed_chart_, QStringLiteral("backtestFreed"));
    drivers_ = new ChartSection(bars_, QStringLiteral("drivers"));

    unmeasured_title_ = new QLabel(tr("What was not measured"));
    unmeasured_note_ = new QLabel;
    list_ = new SentenceList(QStringLiteral("sentence"));
    for (QLabel* label : {unmeasured_title_, unmeasured_note_}) {
        constexpr int room = static_cast<int>(ring_room);
        label->setContentsMargins(room, 0, room, 0);
        label->setWordWrap(true);
        label->setTextFormat(Qt::PlainText);
    }
    unmeasured_note_->setObjectName(QStringLiteral("unmeasuredNote"));

    sheet()->addWidget(state_text_);
    sheet()->addWidget(dataset_.row);
    sheet()->addWidget(turnover_);
    addRule();
    sheet()->addWidget(live_);
    sheet()->addSpacing(4);
    sheet()->addWidget(freed_);
    addRule();
    sheet()->addWidget(box_.row);
    sheet()->addWidget(drivers_);
    addRule();
    auto* unmeasured = new QVBoxLayout;
    unmeasured->setSpacing(3);
    unmeasured->addWidget(unmeasured_title_);
    unmeasured->addWidget(unmeasured_note_);
    unmeasured->addWidget(list_);
    sheet()->addLayout(unmeasured);
    sheet()->addStretch(1);

    connect(dataset_.box, &QComboBox::activated, this, &SurePage::chooseDataset);
    connect(box_.box, &QComboBox::activated, this, &SurePage::chooseBox);
    connect(list_, &SentenceList::chosen, this, &Page::itemChosen);
    connect(bars_, &ReadChart::entered, this, [this](int row) {
        if (row >= 0 && row < static_cast<int>(bars_->drivers().size()))
            emit itemChosen(
                QString::fromStdString(bars_->drivers()[static_cast<std::size_t>(row)].about));
    });
    refresh();
}

const std::vector<TextButton*>& SurePage::sentences() const { return list_->buttons(); }

QString SurePage::shownDataset() const {
    return answer() ? pointer_of(datasets, answer()->site.datasets, shown_dataset_) : QString();
}

QString SurePage::shownBox() const {
    return answer() ? pointer_of(boxes, answer()->site.boxes, shown_box_) : QString();
}

void SurePage::setPrefixes(Prefixes prefixes) {
    prefixes_ = prefixes;
    for (ReadChart* chart : {static_cast<ReadChart*>(curve_), static_cast<ReadChart*>(live_chart_),
                             static_cast<ReadChart*>(freed_chart_)})
        chart->setPrefixes(prefixes);
    refresh();
}

void SurePage::showItem(const QString& pointer) {
    if (!answer()) return;
    const int dataset = indexIn(pointer, datasets), box = indexIn(pointer, boxes);
    const Site& site = answer()->site;
    const Outlook& outlook = answer()->outlook;
    if (dataset >= 0 && dataset < static_cast<int>(site.datasets.size())) {
        const std::string& name = site.datasets[static_cast<std::size_t>(dataset)].name;
        if (index_of(outlook.datasets, name) >= 0) shown_dataset_ = name;
    } else if (box >= 0 && box < static_cast<int>(site.boxes.size())) {
        const std::string& name = site.boxes[static_cast<std::size_t>(box)].name;
        if (index_of(outlook.boxes, name) >= 0) shown_box_ = name;
    } else {
        return;
    }
    refresh();
}

void SurePage::chooseDataset(int index) {
    if (!answer() || index < 0 || index >= static_cast<int>(answer()->outlook.datasets.size()))
        return;
    shown_dataset_ = answer()->outlook.datasets[static_cast<std::size_t>(index)].name;
    refresh();
    if (const QString pointer = shownDataset(); !pointer.isEmpty()) emit itemChosen(pointer);
}

void SurePage::chooseBox(int index) {
    if (!answer() || index < 0 || index >= static_cast<int>(answer()->outlook.boxes.size())) return;
    shown_box_ = answer()->outlook.boxes[static_cast<std::size_t>(index)].name;
    refresh();
    if (const QString pointer = shownBox(); !pointer.isEmpty()) emit itemChosen(pointer);
}

void SurePage::clear(const QString& headline, const QString& detail) {
    curve_->setDataset(nullptr);
    live_chart_->setDataset(nullptr);
    freed_chart_->setDataset(nullptr);
    bars_->setBox(nullptr, {}, 1);
    say(headline, detail);
}

void SurePage::refresh() {
    if (!answer()) {
        const QString detail =
            tr("What the forecast rests on, how earlier ones fared, and what it depends on most "
               "appears here.");
        if (state() == ShownState::updating)
            clear(tr("Working out the forecast…"), detail);
        else if (state() == ShownState::failed)
            clear(tr("No forecast"), tr("The calculation failed. What to mend is said below."));
        else if (state() == ShownState::cancelled)
            clear(tr("No forecast"), tr("The calculation was cancelled."));
        else
            clear(tr("No answer yet"), detail);
        return;
    }
    if (answer()->outlook.datasets.empty() && answer()->outlook.boxes.empty()) {
        clear(tr("Nothing is forecast yet"),
              tr("Add a dataset, and what is known of its changes appears here."));
        return;
    }
    say({}, {});
    showDataset();
    showBox();
    showSentences();
}

void SurePage::showDataset() {
    const auto& all = answer()->outlook.datasets;
    const bool any = !all.empty();
    for (ChartSection* section : {turnover_, live_, freed_}) section->setVisible(any);
    for (std::size_t i = 0; i < 2; ++i) rules()[i]->setVisible(any);
    dataset_.row->setVisible(all.size() > 1);
    if (!any) return;
    const int index = std::max(0, index_of(all, shown_dataset_));
    const DatasetOutlook& d = all[static_cast<std::size_t>(index)];
    shown_dataset_ = d.name;
    {
        const QSignalBlocker quiet(dataset_.box);
        dataset_.box->clear();
        for (const DatasetOutlook& each : all)
            dataset_.box->addItem(QString::fromStdString(each.name));
        dataset_.box->setCurrentIndex(index);
        dataset_.box->setToolTip(QString::fromStdString(d.name));
    }
    curve_->setDataset(&d);
    turnover_->refresh(SureText::turnoverNote(d), SureText::noTurnover(d),
                       SureTables::turnover(d, prefixes_));
    const auto backtest = [&](BacktestChart* chart, ChartSection* section) {
        chart->setDataset(&d);
        QString note;
        if (chart->hasData()) {
            note = SureText::backtestNote(*d.backtest, chart->figure());
            if (const QString extra = chart->caution(); !extra.isEmpty()) note += u' ' + extra;
        }
        section->refresh(note, SureText::noBacktest(d),
                         SureTables::backtest(d, chart->figure(), prefixes_));
    };
    backtest(live_chart_, live_);
    backtest(freed_chart_, freed_);
    // Both lack for the same reason, which need not be said twice.
    freed_->setVisible(live_chart_->hasData() || freed_chart_->hasData());
}

void SurePage::showBox() {
    const Outlook& outlook = answer()->outlook;
    const bool any = !outlook.boxes.empty();
    drivers_->setVisible(any);
    rules().back()->setVisible(any);
    box_.row->setVisible(outlook.boxes.size() > 1);
    if (!any) return;
    int index = index_of(outlook.boxes, shown_box_);
    if (index < 0) index = soonest_box(outlook);
    const BoxOutlook& box = outlook.boxes[static_cast<std::size_t>(index)];
    shown_box_ = box.name;
    {
        const QSignalBlocker quiet(box_.box);
        box_.box->clear();
        for (const BoxOutlook& each : outlook.boxes)
            box_.box->addItem(QString::fromStdString(each.name));
        box_.box->setCurrentIndex(index);
        box_.box->setToolTip(QString::fromStdString(box.name));
    }
    const auto drivers = drivers_of(outlook, box.name);
    bars_->setBox(&box, drivers, outlook.horizon_days);
    drivers_->refresh(SureText::driversNote(), SureText::noDrivers(box, outlook.horizon_days),
                      SureTables::drivers(drivers));
}

void SurePage::showSentences() {
    std::vector<Sentence> wanted;
    for (const DatasetOutlook& d : answer()->outlook.datasets) {
        const QString pointer = pointer_of(datasets, answer()->site.datasets, d.name);
        const auto add = [&](const QString& text) {
            if (!text.isEmpty()) wanted.push_back({text, pointer});
        };
        add(SureText::notMeasured(d));
        for (const Message& assumption : d.assumptions)
            add(tr("“%1”: %2", "dataset, sentence")
                    .arg(QString::fromStdString(d.name), Words::said(assumption)));
        add(SureText::stretched(d));
    }
    list_->setSentences(wanted);
    unmeasured_note_->setText(
        wanted.empty() ? tr("There is no dataset of which something could be assumed.")
                       : tr("Taken instead of a measurement. Choose one to go to its dataset."));
}

void SurePage::applyState() {
    for (ChartSection* section : {turnover_, live_, freed_, drivers_}) section->setState(state());
    state_text_->setText(state_words(state()));
    state_text_->setVisible(!state_text_->text().isEmpty());
}

void SurePage::retheme() {
    const Theme theme = Theme::of(palette());
    state_text_->setFont(scaled(font(), 1.0, QFont::DemiBold));
    unmeasured_title_->setFont(scaled(font(), 1.25, QFont::DemiBold));
    set_text_colour(*unmeasured_title_, theme.ink);
    unmeasured_note_->setFont(scaled(font(), 0.9));
    set_text_colour(*unmeasured_note_, theme.muted);
}

}  // namespace ullage
