// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// Which snapshots a ladder would keep today, drawn back from now: a lane for each rung, a mark for each
/// snapshot it keeps, on a scale on which each step back is about as wide as the one before.
///
/// Which exist is the core's to say (core/retention/ladder.h). Position of an age a of days: log(1 + 24 a), so
/// that hours, days, weeks and months all have room.

#include "core/site/site.h"
#include "ui/theme/drawn_widget.h"

#include <QStringList>

#include <vector>

namespace ullage::ui {

class LadderTimeline : public DrawnWidget {
    Q_OBJECT

public:
    explicit LadderTimeline(QWidget* parent = nullptr);

    /// The ladder at noon of a day, by the clock of a zone; a zone the core does not know is UTC.
    void setLadder(const Ladder& ladder, Day day, const std::string& time_zone);

    struct Lane {
        QString name;                   ///< "every day, 30"
        std::vector<double> age_days;   ///< of the snapshots that this rung keeps
    };
    const std::vector<Lane>& lanes() const { return lanes_; }
    /// "68 snapshots would be there today, the oldest 12 months old."
    const QString& words() const { return words_; }

    QSize sizeHint() const override;
    QSize minimumSizeHint() const override;
    bool hasHeightForWidth() const override { return false; }

protected:
    void drawPicture(QPainter& painter, const QSizeF& size, const Theme& theme, const QFont& font) const override;

private:
    std::vector<Lane> lanes_;
    QString words_;
};

}  // namespace ullage::ui
