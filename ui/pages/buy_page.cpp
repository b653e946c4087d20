// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/pages/buy_page.h"

#include "ui/buy/block_bars.h"
#include "ui/buy/buy_tables.h"
#include "ui/buy/buy_text.h"
#include "ui/buy/frontier_chart.h"
#include "ui/buy/offer_card.h"
#include "ui/buy/space_chart.h"
#include "ui/sure/chart_section.h"
#include "ui/theme/theme.h"
#include "ui/theme/tile_layout.h"

#include <QComboBox>
#include <QFrame>
#include <QLabel>
#include <QSignalBlocker>
#include <QVBoxLayout>

#include <algorithm>

namespace ullage {
namespace {

double share_of(double part, double whole) { return whole > 0 ? part / whole : 1; }

}  // namespace

BuyPage::BuyPage(QWidget* parent) : Page(parent) {
    constexpr int room = static_cast<int>(ring_room);
    const auto label = [&](const char* name) {
        auto* made = new QLabel;
        made->setObjectName(QLatin1String(name));
        made->setTextFormat(Qt::PlainText);
        made->setWordWrap(true);
        made->setContentsMargins(room, 0, room, 0);
        made->setTextInteractionFlags(Qt::TextSelectableByMouse);
        return made;
    };
    state_text_ = label("buyState");
    headline_ = label("buyHeadline");
    detail_ = label("buyDetail");
    order_ = label("buyOrderBy");
    nothing_ = label("buyNothing");
    box_ = makeChooser(tr("&Box"), QStringLiteral("buyBoxChooser"));
    space_of_ = makeChooser(tr("&Space of"), QStringLiteral("buySpaceChooser"));
    strip_ = new QWidget;
    strip_->setAccessibleName(tr("Offers side by side"));
    tiles_ = new TileLayout(OfferCard::leastWidth(font()), 10, strip_);
    tiles_->setContentsMargins(room, 4, room, 0);
    frontier_chart_ = new FrontierChart;
    space_chart_ = new SpaceChart;
    block_bars_ = new BlockBars;
    frontier_ = new ChartSection(frontier_chart_, QStringLiteral("frontier"));
    space_ = new ChartSection(space_chart_, QStringLiteral("space"));
    blocks_ = new ChartSection(block_bars_, QStringLiteral("blocks"));

    sheet()->addWidget(state_text_);
    sheet()->addWidget(box_.row);
    auto* words = new QVBoxLayout;
    words->setSpacing(4);
    for (QLabel* each : {headline_, detail_, order_, nothing_}) words->addWidget(each);
    sheet()->addLayout(words);
    sheet()->addWidget(strip_);
    frontier_rule_ = addRule();
    sheet()->addWidget(frontier_);
    space_rule_ = addRule();
    sheet()->addWidget(space_of_.row);
    sheet()->addWidget(space_);
    blocks_rule_ = addRule();
    sheet()->addWidget(blocks_);
    sheet()->addStretch(1);

    connect(box_.box, &QComboBox::activated, this, &BuyPage::chooseBox);
    connect(space_of_.box, &QComboBox::activated, this, [this] {
        shown_space_ = space_of_.box->currentData().toString().toStdString();
        showSpace();
    });
    connect(frontier_chart_, &ReadChart::entered, this,
            [this](int reading) { chooseOffer(frontier_chart_->offerAt(reading)); });
    refresh();
}

void BuyPage::setPrefixes(Prefixes prefixes) {
    prefixes_ = prefixes;
    for (ReadChart* chart :
         {static_cast<ReadChart*>(frontier_chart_), static_cast<ReadChart*>(space_chart_),
          static_cast<ReadChart*>(block_bars_)})
        chart->setPrefixes(prefixes);
    refresh();
}

void BuyPage::showItem(const QString& pointer) {
    if (!answer()) return;
    const int box = indexIn(pointer, QStringLiteral("boxes")),
              offer = indexIn(pointer, QStringLiteral("offers"));
    const Site& site = answer()->site;
    std::string name;
    if (box >= 0 && box < static_cast<int>(site.boxes.size()))
        name = site.boxes[static_cast<std::size_t>(box)].name;
    else if (offer >= 0 && offer < static_cast<int>(site.offers.size()))
        name = site.offers[static_cast<std::size_t>(offer)].box;
    const auto names = boxes_to_buy_for(answer()->outlook);
    if (std::find(names.begin(), names.end(), name) == names.end()) return;
    chosen_ = name;
    refresh();
}

void BuyPage::chooseBox(int index) {
    if (!answer() || index < 0) return;
    chosen_ = box_.box->itemData(index).toString().toStdString();
    refresh();
    const auto& boxes = answer()->site.boxes;
    for (std::size_t i = 0; i < boxes.size(); ++i)
        if (boxes[i].name == shown_) emit itemChosen(QStringLiteral("/boxes/%1").arg(i));
}

void BuyPage::chooseOffer(int offer) {
    if (!answer() || offer < 0 || offer >= static_cast<int>(answer()->outlook.offers.size()))
        return;
    const std::string& name = answer()->outlook.offers[static_cast<std::size_t>(offer)].name;
    const auto& offers = answer()->site.offers;
    for (std::size_t i = 0; i < offers.size(); ++i)
        if (offers[i].name == name) emit itemChosen(QStringLiteral("/offers/%1").arg(i));
}

void BuyPage::clear(const QString& headline, const QString& detail) {
    frontier_chart_->setOffers(nullptr, {});
    space_chart_->setCapacity(std::nullopt, 1, {});
    block_bars_->setBox(nullptr);
    say(headline, detail);
}

void BuyPage::refresh() {
    if (!answer()) {
        const QString detail = tr("What to order, and by when, appears here.");
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
    const auto names = boxes_to_buy_for(answer()->outlook);
    if (names.empty()) {
        clear(tr("No box to buy for"),
              tr("Give a box its drives, or its usable size, and what to order for it appears "
                 "here."));
        return;
    }
    say({}, {});
    const bool chosen = std::find(names.begin(), names.end(), chosen_) != names.end();
    shown_ = chosen ? chosen_ : first_to_buy_for(answer()->outlook);
    {
        const QSignalBlocker quiet(box_.box);
        box_.box->clear();
        for (const std::string& name : names) {
            const QString text = QString::fromStdString(name);
            box_.box->addItem(text, text);
        }
        box_.box->setCurrentIndex(box_.box->findData(QString::fromStdString(shown_)));
        box_.box->setToolTip(QString::fromStdString(shown_));
    }
    box_.row->setVisible(names.size() > 1);
    showWords();
    showCards();
    showSpace();
    const BoxOutlook* box = box_of(answer()->outlook, shown_);
    const bool blocks = box && box->capacity && !box->costs.empty();
    block_bars_->setBox(blocks ? box : nullptr);
    blocks_->setVisible(blocks);
    blocks_rule_->setVisible(blocks);
    blocks_->refresh(blocks ? BuyText::blocksNote(*box, prefixes_) : QString(), {},
                     BuyTables::blocks(block_bars_->costs(), prefixes_));
}

void BuyPage::showWords() {
    const auto set = [](QLabel* label, const QString& text) {
        label->setText(text);
        label->setVisible(!text.isEmpty());
    };
    set(headline_, BuyText::headline(*answer(), shown_));
    set(detail_, BuyText::detail(*answer(), shown_));
    set(order_, BuyText::orderLine(*answer(), shown_));
    set(nothing_, BuyText::ifNothing(*answer(), shown_));
}

void BuyPage::showCards() {
    const Outlook& outlook = answer()->outlook;
    const auto offers = offers_for(outlook, shown_);
    while (cards_.size() > offers.size()) {
        delete cards_.back();
        cards_.pop_back();
    }
    while (cards_.size() < offers.size()) {
        auto* card = new OfferCard;
        const auto index = cards_.size();
        card->setObjectName(QStringLiteral("offer%1").arg(index));
        connect(card, &QAbstractButton::clicked, this,
                [this, index] { chooseOffer(offer_of_card_[index]); });
        tiles_->addWidget(card);
        card->show();
        cards_.push_back(card);
    }
    double dearest = 0;
    for (const OfferOutlook* offer : offers) dearest = std::max(dearest, offer->cost_total);
    offer_of_card_.clear();
    for (std::size_t i = 0; i < offers.size(); ++i) {
        cards_[i]->setOffer(*answer(), *offers[i], prefixes_, dearest);
        cards_[i]->setState(state());
        offer_of_card_.push_back(static_cast<int>(offers[i] - outlook.offers.data()));
        if (i > 0) setTabOrder(cards_[i - 1], cards_[i]);
    }
    strip_->setVisible(!cards_.empty());
    tiles_->invalidate();

    frontier_chart_->setOffers(&outlook, shown_);
    frontier_->setVisible(!cards_.empty());
    frontier_rule_->setVisible(!cards_.empty());
    frontier_->refresh(BuyText::frontierNote(outlook, shown_),
                       tr("None of the offers goes in, so there is nothing to compare."),
                       BuyTables::offers(outlook, shown_, prefixes_));
    if (!cards_.empty()) setTabOrder(cards_.back(), frontier_chart_);
}

void BuyPage::showSpace() {
    if (!answer()) return;
    const BoxOutlook* box = box_of(answer()->outlook, shown_);
    struct Way {
        QString words;
        std::string offer;
        PoolCapacity capacity;
        double ceiling;
    };
    std::vector<Way> ways;
    if (box && box->capacity)
        ways.push_back({tr("%1 as it is").arg(QString::fromStdString(shown_)),
                        {},
                        *box->capacity,
                        share_of(box->ceiling_bytes, box->usable_bytes)});
    for (const OfferOutlook* offer : offers_for(answer()->outlook, shown_))
        if (offer->capacity)
            ways.push_back({tr("with “%1”").arg(QString::fromStdString(offer->name)), offer->name,
                            *offer->capacity, share_of(offer->ceiling_bytes, offer->usable_bytes)});
    auto at = std::find_if(ways.begin(), ways.end(),
                           [this](const Way& way) { return way.offer == shown_space_; });
    if (at == ways.end()) at = ways.begin();
    const bool any = !ways.empty();
    if (any) shown_space_ = at->offer;
    {
        const QSignalBlocker quiet(space_of_.box);
        space_of_.box->clear();
        for (const Way& way : ways)
            space_of_.box->addItem(way.words, QString::fromStdString(way.offer));
        if (any) space_of_.box->setCurrentIndex(static_cast<int>(at - ways.begin()));
    }
    space_of_.row->setVisible(ways.size() > 1);
    space_->setVisible(any);
    space_rule_->setVisible(any);
    if (any)
        space_chart_->setCapacity(at->capacity, at->ceiling, shown_ + '\n' + at->offer);
    else
        space_chart_->setCapacity(std::nullopt, 1, {});
    space_->refresh(tr("Hatched: what a step takes. Filled: what is left after it."), {},
                    BuyTables::space(space_chart_->steps(), space_chart_->ceiling()));
}

void BuyPage::applyState() {
    for (OfferCard* card : cards_) card->setState(state());
    for (ChartSection* section : {frontier_, space_, blocks_}) section->setState(state());
    state_text_->setText(state_words(state()));
    state_text_->setVisible(!state_text_->text().isEmpty());
    retheme();
}

void BuyPage::retheme() {
    const Theme theme = Theme::of(palette());
    const Theme shown = out_of_date(state()) ? faded(theme) : theme;
    tiles_->setLeastWidth(OfferCard::leastWidth(font()));
    tiles_->setMostWidth(OfferCard::leastWidth(font()) * 3 / 2);
    state_text_->setFont(scaled(font(), 1.0, QFont::DemiBold));
    headline_->setFont(scaled(font(), 1.6, QFont::DemiBold));
    order_->setFont(scaled(font(), 1.0, QFont::DemiBold));
    set_text_colour(*headline_, shown.ink);
    set_text_colour(*order_, shown.ink);
    set_text_colour(*detail_, shown.ink);
    set_text_colour(*nothing_, shown.muted);
}

}  // namespace ullage
