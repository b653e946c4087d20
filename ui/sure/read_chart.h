// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// A drawn chart of which every value can be read: the one nearest to the pointer, or one after the
/// other by the keyboard. Title and summary say the same to eye and ear.
///
/// Mouse: pointing reads, a press keeps what is read, a double click enters it. Keys: Left, Right
/// (or Up, Down), Home, End go from value to value; Enter enters it; Escape lets go of it.

#include "core/outlook/outlook.h"
#include "core/units/quantity_text.h"
#include "ui/theme/drawn_widget.h"

#include <QPointF>
#include <QString>

#include <vector>

namespace ullage {

class ReadChart : public DrawnWidget {
    Q_OBJECT

public:
    struct Reading {
        QPointF at;     ///< in the widget's coordinates
        QString words;  ///< a sentence
    };

    explicit ReadChart(QWidget* parent = nullptr);

    virtual bool hasData() const = 0;
    virtual QString title() const = 0;    ///< says the answer
    virtual QString summary() const = 0;  ///< every part of the picture, in sentences
    /// In the order of the keyboard; for this widget's width and font.
    virtual std::vector<Reading> readings() const = 0;

    void setPrefixes(Prefixes prefixes);
    Prefixes prefixes() const { return prefixes_; }

    /// Index of the value nearest to a point; −1 if none is within reach.
    virtual int nearest(const QPointF& point) const;
    /// Reads a value; −1 lets go.
    void read(int index);
    /// What is read now as a sentence: under the pointer, else the one kept; empty for none.
    QString readout() const;

    bool hasHeightForWidth() const override { return true; }

signals:
    void readoutChanged();
    void entered(int index);

protected:
    /// Whether what is read there is marked: not where a part of the picture is out of sight.
    virtual bool isInSight(const QPointF&) const { return true; }
    int shown() const { return pointed_ >= 0 ? pointed_ : kept_; }
    /// To be called when the values changed. `other`: they are of something else now, so what was
    /// read is let go.
    void changed(bool other = false);
    void stateChanged() override { tell(); }
    void paintEvent(QPaintEvent* event) override;
    void mouseMoveEvent(QMouseEvent* event) override;
    void mousePressEvent(QMouseEvent* event) override;
    void mouseDoubleClickEvent(QMouseEvent* event) override;
    void leaveEvent(QEvent* event) override;
    void keyPressEvent(QKeyEvent* event) override;

private:
    void tell();

    Prefixes prefixes_ = Prefixes::decimal;
    int kept_ = -1, pointed_ = -1;
};

}  // namespace ullage
