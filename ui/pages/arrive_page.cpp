// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/pages/arrive_page.h"

#include "ui/arrive/age_chart.h"
#include "ui/arrive/drill_chart.h"
#include "ui/arrive/outage_fields.h"
#include "ui/arrive/outage_text.h"
#include "ui/arrive/send_pictures.h"
#include "ui/arrive/span_bars.h"
#include "ui/pages/arrive_text.h"
#include "ui/sure/chart_section.h"
#include "ui/theme/sentence_list.h"
#include "ui/theme/status.h"
#include "ui/theme/theme.h"
#include "ui/theme/tile_layout.h"
#include "ui/theme/words.h"
#include "ui/week/limit_chain.h"
#include "ui/week/week_strips.h"

#include <QComboBox>
#include <QFontMetricsF>
#include <QHBoxLayout>
#include <QLabel>
#include <QSignalBlocker>
#include <QVBoxLayout>

#include <algorithm>
#include <cmath>

namespace ullage {
namespace {

QLabel* text_label(bool wrap = true) {
    auto* label = new QLabel;
    label->setTextFormat(Qt::PlainText);
    label->setWordWrap(wrap);
    return label;
}

}  // namespace

ArrivePage::ArrivePage(QWidget* parent) : Page(parent) {
    const Chooser chooser = makeChooser(tr("&Send"), QStringLiteral("sendChooser"));
    chooser_row_ = chooser.row;
    chooser_ = chooser.box;

    auto* status_row = new QHBoxLayout;
    status_row->setSpacing(6);
    shape_ = new QLabel;
    status_ = text_label(false);
    route_ = text_label();
    state_text_ = text_label(false);
    status_row->addWidget(shape_);
    status_row->addWidget(status_);
    status_row->addSpacing(8);
    status_row->addWidget(route_, 1);
    status_row->addWidget(state_text_);

    headline_ = text_label();
    headline_->setObjectName(QStringLiteral("arriveHeadline"));
    auto* top = new QVBoxLayout;
    top->setSpacing(4);
    top->addLayout(status_row);
    top->addWidget(headline_);

    facts_ = new QWidget;
    tiles_ = new TileLayout(200, 18, facts_);
    for (int i = 0; i < 6; ++i) {
        FactLabels fact;
        fact.tile = new QWidget;
        auto* column = new QVBoxLayout(fact.tile);
        column->setContentsMargins(0, 0, 0, 0);
        column->setSpacing(1);
        fact.caption = text_label();
        fact.value = text_label();
        fact.sentence = text_label();
        column->addWidget(fact.caption);
        column->addWidget(fact.value);
        column->addWidget(fact.sentence);
        column->addStretch(1);
        tiles_->addWidget(fact.tile);
        fact_labels_.push_back(fact);
    }

    week_title_ = text_label();
    week_title_->setText(tr("Its week"));
    week_caption_ = text_label();
    week_ = new WeekStrips;
    week_->setObjectName(QStringLiteral("week"));
    limits_title_ = text_label();
    limits_title_->setText(tr("What the link lets through"));
    limits_caption_ = text_label();
    limits_ = new LimitChain;
    limits_->setObjectName(QStringLiteral("limits"));
    // What is drawn keeps room for a focus ring; the texts are set in as far.
    constexpr int room = static_cast<int>(ring_room);
    const auto section = [](QLabel* title, QLabel* caption, QWidget* widget) {
        auto* layout = new QVBoxLayout;
        layout->setSpacing(3);
        title->setContentsMargins(room, 0, room, 0);
        caption->setContentsMargins(room, 0, room, 0);
        layout->addWidget(title);
        layout->addWidget(caption);
        layout->addWidget(widget);
        return layout;
    };
    top->setContentsMargins(room, 0, room, 0);
    tiles_->setContentsMargins(room, 0, room, 0);

    sheet()->addWidget(chooser_row_);
    sheet()->addLayout(top);
    sheet()->addWidget(facts_);
    sheet()->addSpacing(4);
    sheet()->addLayout(section(week_title_, week_caption_, week_));
    weekday_bars_ = new SpanBars;
    weekdays_ = new ChartSection(weekday_bars_, QStringLiteral("weekdays"));
    backlog_ = text_label();
    backlog_->setObjectName(QStringLiteral("backlog"));
    events_title_ = text_label();
    events_title_->setText(tr("Runs of planned events"));
    events_ = new SentenceList(QStringLiteral("event"));
    for (QLabel* label : {backlog_, events_title_}) label->setContentsMargins(room, 0, room, 0);
    sheet()->addSpacing(4);
    sheet()->addWidget(weekdays_);
    sheet()->addWidget(backlog_);
    sheet()->addWidget(events_title_);
    sheet()->addWidget(events_);
    connect(events_, &SentenceList::chosen, this, &Page::itemChosen);
    addRule();
    sheet()->addLayout(section(limits_title_, limits_caption_, limits_));
    makeOutage();
    makeWays();
    sheet()->addStretch(1);

    connect(chooser_, &QComboBox::activated, this, &ArrivePage::choose);
    refresh();
}

void ArrivePage::makeOutage() {
    age_chart_ = new AgeChart;
    ages_ = new ChartSection(age_chart_, QStringLiteral("ages"));
    drill_chart_ = new DrillChart;
    through_ = new ChartSection(drill_chart_, QStringLiteral("through"));
    outage_fields_ = new OutageFields;
    outage_state_ = text_label();
    outage_state_->setObjectName(QStringLiteral("outageState"));
    drill_words_ = text_label();
    drill_words_->setObjectName(QStringLiteral("drillWords"));
    drill_words_->setTextInteractionFlags(Qt::TextSelectableByMouse);
    constexpr int room = static_cast<int>(ring_room);
    for (QLabel* label : {outage_state_, drill_words_}) label->setContentsMargins(room, 0, room, 0);
    addRule();
    sheet()->addWidget(ages_);
    sheet()->addWidget(outage_fields_);
    sheet()->addWidget(outage_state_);
    sheet()->addWidget(through_);
    sheet()->addWidget(drill_words_);
    for (TimeChart* chart :
         {static_cast<TimeChart*>(age_chart_), static_cast<TimeChart*>(drill_chart_)}) {
        connect(chart, &TimeChart::outageWanted, this,
                [this](const OutageSpan& span) { setOutage(span); });
        connect(chart, &TimeChart::outageUnwanted, this, [this] { setOutage({}); });
    }
    connect(outage_fields_, &OutageFields::outageWanted, this,
            [this](const OutageSpan& span) { setOutage(span); });
    connect(outage_fields_, &OutageFields::outageUnwanted, this, [this] { setOutage({}); });
}

void ArrivePage::makeWays() {
    first_copy_rule_ = addRule();
    first_copy_bars_ = new SpanBars;
    first_copy_ = new ChartSection(first_copy_bars_, QStringLiteral("firstCopy"));
    assumed_ = text_label();
    assumed_->setObjectName(QStringLiteral("assumed"));
    constexpr int room = static_cast<int>(ring_room);
    assumed_->setContentsMargins(room, 0, room, 0);
    sheet()->addWidget(first_copy_);
    sheet()->addWidget(assumed_);
    restore_rule_ = addRule();
    restore_bars_ = new SpanBars;
    restore_ = new ChartSection(restore_bars_, QStringLiteral("restore"));
    sheet()->addWidget(restore_);
}

void ArrivePage::showWays() {
    const SendOutlook& send = *shownSend();
    const bool other = ways_of_ != send.name;
    ways_of_ = send.name;
    const auto show = [&](SpanBars* bars, ChartSection* section, SpanPicture picture,
                          const QString& note, NumberTable::Content table) {
        const bool any = !picture.rows.empty();
        bars->setPicture(std::move(picture), other);
        section->refresh(note, {}, std::move(table));
        section->setVisible(any);
        return any;
    };
    show(weekday_bars_, weekdays_, SendPictures::weekdays(send, prefixes_),
         SendPictures::weekdaysNote(), SendPictures::weekdaysTable(send, prefixes_));
    backlog_->setText(SendPictures::backlog(send, prefixes_));
    backlog_->setVisible(!send.weekdays.empty());
    const auto events = SendPictures::events(send, answer()->site, prefixes_);
    events_->setSentences(events);
    events_->setVisible(!events.empty());
    events_title_->setVisible(!events.empty());
    first_copy_rule_->setVisible(
        show(first_copy_bars_, first_copy_,
             SendPictures::firstCopy(send, answer()->outlook.horizon_days, prefixes_),
             SendPictures::firstCopyNote(send, prefixes_), SendPictures::firstCopyTable(send)));
    const QStringList assumed = SendPictures::firstCopyAssumptions(send);
    assumed_->setText(
        assumed.isEmpty()
            ? QString()
            : tr("Assumed for the first copy: %1").arg(assumed.join(QStringLiteral("; "))));
    assumed_->setVisible(!assumed.isEmpty());
    restore_rule_->setVisible(show(restore_bars_, restore_, SendPictures::restore(send, prefixes_),
                                   SendPictures::restoreNote(),
                                   SendPictures::restoreTable(send, prefixes_)));
}

QString ArrivePage::backlogWords() const { return backlog_->text(); }

const SendOutlook* ArrivePage::shownSend() const {
    if (!answer()) return nullptr;
    const auto& sends = answer()->outlook.sends;
    const auto at = std::find_if(sends.begin(), sends.end(),
                                 [this](const SendOutlook& s) { return s.name == shown_; });
    return at == sends.end() ? nullptr : &*at;
}

QString ArrivePage::drillWords() const { return drill_words_->text(); }

void ArrivePage::setOutage(const std::optional<OutageSpan>& outage) {
    outage_ = outage;
    if (!outage) {
        // The chart that had the keyboard goes away with its outage.
        if (drill_chart_->hasFocus()) age_chart_->setFocus(Qt::OtherFocusReason);
        drill_.reset();
        drill_problem_.clear();
        drill_current_ = false;
        emit outageDropped();
    }
    askAgain();
    showAges();
    showDrill();
}

void ArrivePage::askAgain() {
    const SendOutlook* send = shownSend();
    if (!outage_ || !send) return;
    asked_of_ = answer();
    asked_send_ = send->name;
    drill_current_ = false;
    drill_problem_.clear();
    emit outageAsked({send->name, outage_->from, static_cast<double>(outage_->days)});
}

void ArrivePage::setDrill(std::shared_ptr<const OutageDrill> drill) {
    if (!outage_ || !drill || drill->send != shown_) return;
    drill_ = std::move(drill);
    drill_problem_.clear();
    drill_current_ = drill_->from == outage_->from && drill_->days == outage_->days;
    showAges();
    showDrill();
}

void ArrivePage::setDrillProblems(const Problems& problems) {
    if (!outage_ || problems.empty()) return;
    drill_.reset();
    drill_current_ = false;
    drill_problem_ = Words::sentence(QString::fromStdString(problems.front().what));
    showAges();
    showDrill();
}

void ArrivePage::showAges() {
    const SendOutlook* send = shownSend();
    if (!send) return;
    age_chart_->setSend(send, answer()->outlook.as_of, answer()->outlook.horizon_days);
    age_chart_->setOutage(outage_);
    age_chart_->setDrill(drill_);
    ages_->refresh(OutageText::ageNote(), OutageText::noAge(), OutageText::ageTable(*send));
    outage_fields_->setVisible(age_chart_->hasData());
    outage_fields_->setOutage(outage_, age_chart_->limits());
}

void ArrivePage::showDrill() {
    drill_chart_->setOutage(outage_);
    drill_chart_->setDrill(drill_, age_chart_->limits());
    through_->setVisible(drill_ != nullptr);
    if (drill_)
        through_->refresh(OutageText::drillNote(), {}, OutageText::drillTable(*drill_, prefixes_));
    drill_words_->setText(drill_ ? OutageText::drill(*drill_, prefixes_).join(u'\n') : QString());
    drill_words_->setVisible(drill_ != nullptr);
    QString words;
    if (!drill_problem_.isEmpty())
        words = drill_problem_;
    else if (outage_ && !drill_current_ && !out_of_date(state()))
        words = tr("Working out this outage…");
    outage_state_->setText(words);
    outage_state_->setVisible(!words.isEmpty());
    const bool stale = out_of_date(state()) || (drill_ && !drill_current_);
    through_->setState(out_of_date(state()) ? state()
                       : stale              ? ShownState::updating
                                            : ShownState::ready);
    const Theme theme = Theme::of(palette());
    set_text_colour(*drill_words_,
                    stale ? mixed(theme.ink, theme.surface, 1 - stale_opacity) : theme.ink);
    set_text_colour(*outage_state_, drill_problem_.isEmpty() ? theme.muted : theme.full);
}

int ArrivePage::siteIndex(const std::string& send) const {
    if (!answer()) return -1;
    const auto& sends = answer()->site.sends;
    const auto at =
        std::find_if(sends.begin(), sends.end(), [&](const Send& s) { return s.name == send; });
    return at == sends.end() ? -1 : static_cast<int>(at - sends.begin());
}

QString ArrivePage::shownItem() const {
    const int index = shown_.empty() ? -1 : siteIndex(shown_);
    return index < 0 ? QString() : QStringLiteral("/sends/%1").arg(index);
}

QString ArrivePage::headline() const { return headline_->text(); }

void ArrivePage::setPrefixes(Prefixes prefixes) {
    prefixes_ = prefixes;
    week_->setPrefixes(prefixes);
    drill_chart_->setPrefixes(prefixes);
    refresh();
}

void ArrivePage::showItem(const QString& pointer) {
    const int index = indexIn(pointer, QStringLiteral("sends"));
    if (index < 0 || !answer() || index >= static_cast<int>(answer()->site.sends.size())) return;
    const std::string& name = answer()->site.sends[static_cast<std::size_t>(index)].name;
    const auto& sends = answer()->outlook.sends;
    if (std::none_of(sends.begin(), sends.end(),
                     [&](const SendOutlook& s) { return s.name == name; }))
        return;
    shown_ = name;
    refresh();
}

void ArrivePage::choose(int index) {
    if (!answer() || index < 0 || index >= static_cast<int>(answer()->outlook.sends.size())) return;
    shown_ = answer()->outlook.sends[static_cast<std::size_t>(index)].name;
    refresh();
    const QString pointer = shownItem();
    if (!pointer.isEmpty()) emit itemChosen(pointer);
}

void ArrivePage::refresh() {
    const auto nothing = [this](const QString& headline, const QString& detail) {
        week_->setSend(nullptr, TimeZone());
        limits_->setGoodput(nullptr, Limit::rate);
        headline_->clear();
        age_chart_->setSend(nullptr, {}, 1);
        if (outage_) setOutage({});
        say(headline, detail);
    };
    if (!answer()) {
        const QString detail =
            tr("Whether each send is done in time, and how old a copy can get, appears here.");
        if (state() == ShownState::updating)
            nothing(tr("Working out the forecast…"), detail);
        else if (state() == ShownState::failed)
            nothing(tr("No forecast"), tr("The calculation failed. What to mend is said below."));
        else if (state() == ShownState::cancelled)
            nothing(tr("No forecast"), tr("The calculation was cancelled."));
        else
            nothing(tr("No answer yet"), detail);
        return;
    }
    const Outlook& outlook = answer()->outlook;
    if (outlook.sends.empty()) {
        nothing(
            tr("Nothing is sent yet"),
            tr("Add a send from one box to another, over a link, and whether it arrives in time "
               "appears here."));
        return;
    }
    say({}, {});

    auto at = std::find_if(outlook.sends.begin(), outlook.sends.end(),
                           [this](const SendOutlook& s) { return s.name == shown_; });
    if (at == outlook.sends.end()) at = outlook.sends.begin();
    shown_ = at->name;
    const SendOutlook& send = *at;
    level_ = status_of(send, outlook.confidence);
    {
        const QSignalBlocker quiet(chooser_);
        chooser_->clear();
        const Theme theme = Theme::of(palette());
        const int size = static_cast<int>(QFontMetricsF(font()).ascent() * 1.1);
        chooser_->setIconSize(QSize(size, size));
        for (const SendOutlook& s : outlook.sends)
            chooser_->addItem(status_icon(status_of(s, outlook.confidence), theme, size),
                              QString::fromStdString(s.name));
        chooser_->setCurrentIndex(static_cast<int>(at - outlook.sends.begin()));
        chooser_->setToolTip(QString::fromStdString(send.name));
    }
    chooser_row_->setVisible(outlook.sends.size() > 1);
    headline_->setText(ArriveText::headline(send, outlook.confidence));
    route_->setText(ArriveText::route(send));
    showStatus();

    const auto facts = ArriveText::facts(send, outlook.horizon_days, prefixes_);
    for (std::size_t i = 0; i < fact_labels_.size(); ++i) {
        auto& labels = fact_labels_[i];
        labels.tile->setVisible(i < facts.size());
        if (i >= facts.size()) continue;
        labels.caption->setText(facts[i].caption);
        labels.value->setText(facts[i].value);
        labels.sentence->setText(facts[i].sentence);
    }

    const auto found = TimeZone::find(answer()->site.time_zone);
    const TimeZone zone = found ? *found : TimeZone();
    week_->setSend(&send, zone);
    week_caption_->setText(ArriveText::weekCaption(send, zone.name()));
    limits_->setGoodput(&send.goodput, send.bound_by);
    limits_caption_->setText(limits_->sentence());

    // The same figures in other units are no other answer.
    const bool asked = asked_of_ && asked_send_ == send.name &&
                       (asked_of_ == answer() ||
                        (asked_of_->outlook == outlook && asked_of_->site == answer()->site));
    if (outage_ && !asked) {
        if (drill_ && drill_->send != send.name) drill_.reset();
        showAges();  // the limits of the new answer
        outage_ = held(*outage_, age_chart_->limits());
        askAgain();
    }
    showAges();
    showDrill();
    showWays();
}

void ArrivePage::showStatus() {
    const Theme theme = Theme::of(palette());
    const int size = static_cast<int>(std::round(QFontMetricsF(font()).ascent() * 1.3));
    shape_->setPixmap(
        status_icon(level_, theme, size).pixmap(QSize(size, size), devicePixelRatioF()));
    shape_->setAccessibleName(status_word(level_));
    status_->setText(status_word(level_));
    set_text_colour(*status_, status_ink(level_, theme));
}

void ArrivePage::applyState() {
    week_->setState(state());
    limits_->setState(state());
    for (ChartSection* each : {ages_, weekdays_, first_copy_, restore_}) each->setState(state());
    for (QLabel* label : {backlog_, assumed_})
        set_text_colour(*label, out_of_date(state())
                                    ? mixed(Theme::of(palette()).ink, Theme::of(palette()).surface,
                                            1 - stale_opacity)
                                    : Theme::of(palette()).ink);
    showDrill();
    state_text_->setText(state_words(state()));
    const Theme theme = Theme::of(palette());
    const bool stale = out_of_date(state());
    const QColor ink = stale ? mixed(theme.ink, theme.surface, 1 - stale_opacity) : theme.ink;
    set_text_colour(*headline_, ink);
    for (auto& fact : fact_labels_) {
        set_text_colour(*fact.value, ink);
        set_text_colour(*fact.sentence, ink);
    }
}

void ArrivePage::retheme() {
    const Theme theme = Theme::of(palette());
    const QFontMetricsF metrics(font());
    tiles_->setLeastWidth(static_cast<int>(metrics.height() * 13.2));
    headline_->setFont(scaled(font(), 1.45, QFont::DemiBold));
    status_->setFont(scaled(font(), 1.0, QFont::DemiBold));
    state_text_->setFont(scaled(font(), 1.0, QFont::DemiBold));
    for (QLabel* title : {week_title_, limits_title_, events_title_})
        title->setFont(scaled(font(), 1.15, QFont::DemiBold));
    for (QLabel* caption : {week_caption_, limits_caption_, route_})
        set_text_colour(*caption, theme.muted);
    for (auto& fact : fact_labels_) {
        fact.caption->setFont(scaled(font(), 0.9));
        set_text_colour(*fact.caption, theme.muted);
        fact.value->setFont(scaled(font(), 1.2, QFont::DemiBold));
    }
    if (answer() && !answer()->outlook.sends.empty()) {
        showStatus();
        const int size = static_cast<int>(metrics.ascent() * 1.1);
        chooser_->setIconSize(QSize(size, size));
        for (int i = 0; i < chooser_->count(); ++i)
            chooser_->setItemIcon(
                i, status_icon(status_of(answer()->outlook.sends[static_cast<std::size_t>(i)],
                                         answer()->outlook.confidence),
                               theme, size));
    }
    applyState();
}

}  // namespace ullage
