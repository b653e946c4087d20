// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/arrive/outage_fields.h"

#include "ui/arrive/outage_text.h"
#include "ui/theme/drawn_widget.h"
#include "ui/theme/outlined.h"
#include "ui/theme/words.h"

#include <QDateEdit>
#include <QHBoxLayout>
#include <QKeyEvent>
#include <QLabel>
#include <QPushButton>
#include <QSignalBlocker>
#include <QSpinBox>

#include <algorithm>

namespace ullage {
namespace {

constexpr int proposed_days = 7, proposed_after_days = 30;

Day day_of(const QDate& date) { return Day(std::chrono::days(QDate(1970, 1, 1).daysTo(date))); }

}  // namespace

OutageFields::OutageFields(QWidget* parent) : QWidget(parent) {
    setObjectName(QStringLiteral("outageFields"));
    auto* row = new QHBoxLayout(this);
    constexpr int room = static_cast<int>(ring_room);
    row->setContentsMargins(room, 0, room, 0);
    auto* from = new QLabel(tr("Line &down from"));
    auto* length = new QLabel(tr("f&or"));
    date_ = new Outlined<QDateEdit>;
    date_->setObjectName(QStringLiteral("outageDate"));
    date_->setAccessibleName(tr("First day of the outage"));
    date_->setDisplayFormat(Words::tr("d MMM yyyy", "date"));
    date_->setCalendarPopup(true);
    date_->setKeyboardTracking(false);
    days_ = new Outlined<QSpinBox>;
    days_->setObjectName(QStringLiteral("outageDays"));
    days_->setAccessibleName(tr("Days of the outage"));
    days_->setKeyboardTracking(false);
    days_->setRange(1, 1);
    button_ = new QPushButton;
    button_->setObjectName(QStringLiteral("outageButton"));
    button_->setAutoDefault(false);
    from->setBuddy(date_);
    length->setBuddy(days_);
    row->addWidget(from);
    row->addWidget(date_);
    row->addWidget(length);
    row->addWidget(days_);
    row->addWidget(button_);
    row->addStretch(1);

    const auto edited = [this] {
        days_->setSuffix(u' ' + OutageText::daysUnit(days_->value()));
        if (outage_) emit outageWanted(typed());
    };
    connect(date_, &QDateEdit::dateChanged, this, edited);
    connect(days_, &QSpinBox::valueChanged, this, edited);
    connect(button_, &QPushButton::clicked, this, [this] {
        if (outage_)
            emit outageUnwanted();
        else
            emit outageWanted(typed());
    });
    setOutage({}, {});
}

void OutageFields::keyPressEvent(QKeyEvent* event) {
    if (event->key() == Qt::Key_Escape && outage_)
        emit outageUnwanted();
    else
        QWidget::keyPressEvent(event);
}

OutageSpan OutageFields::typed() const {
    return held({day_of(date_->date()), days_->value()}, limits_);
}

void OutageFields::setOutage(const std::optional<OutageSpan>& outage, const OutageLimits& limits) {
    const bool other = !(limits.first == limits_.first && limits.end == limits_.end);
    limits_ = limits;
    const QSignalBlocker quiet_date(date_), quiet_days(days_);
    days_->setRange(1, std::max(1, limits.most_days()));
    date_->setDateRange(Words::date(limits.first),
                        Words::date(std::max(limits.first, limits.end - std::chrono::days(1))));
    if (outage || other) {
        const OutageSpan shown =
            held(outage.value_or(OutageSpan{limits.first + std::chrono::days(proposed_after_days),
                                            proposed_days}),
                 limits);
        date_->setDate(Words::date(shown.from));
        days_->setValue(shown.days);
    }
    days_->setSuffix(u' ' + OutageText::daysUnit(days_->value()));
    outage_ = outage;
    button_->setText(outage ? tr("&Take it away") : tr("&Try this outage"));
    setEnabled(limits.most_days() >= 1);
}

}  // namespace ullage
