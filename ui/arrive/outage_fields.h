// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// The outage as two plain fields, a date and a number of days, and a button that draws it or takes
/// it away; Escape in a field takes it away too.

#include "ui/arrive/outage_span.h"

#include <QWidget>

#include <optional>

class QDateEdit;
class QLabel;
class QPushButton;
class QSpinBox;

namespace ullage {

class OutageFields : public QWidget {
    Q_OBJECT

public:
    explicit OutageFields(QWidget* parent = nullptr);

    /// Without an outage the fields keep a proposal within the limits.
    void setOutage(const std::optional<OutageSpan>& outage, const OutageLimits& limits);
    QDateEdit* date() const { return date_; }
    QSpinBox* days() const { return days_; }
    QPushButton* button() const { return button_; }

signals:
    void outageWanted(const ullage::OutageSpan& span);
    void outageUnwanted();

protected:
    void keyPressEvent(QKeyEvent* event) override;

private:
    OutageSpan typed() const;

    QDateEdit* date_;
    QSpinBox* days_;
    QPushButton* button_;
    std::optional<OutageSpan> outage_;
    OutageLimits limits_;
};

}  // namespace ullage
