// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// A chart with what stands around it: the answer as its title, how to read it, in the same place
/// the value that is read now, and its numbers as a table. Without data only the title and the
/// reason remain.

#include "ui/charts/number_table.h"
#include "ui/theme/chart_export.h"
#include "ui/theme/drawn_widget.h"

#include <QPointer>
#include <QString>
#include <QWidget>

class QLabel;
class QPushButton;

namespace ullage {

class ReadChart;

class ChartSection : public QWidget {
    Q_OBJECT

public:
    /// Takes the chart; `name` is the object name of the section, and with "Chart", "Table" and
    /// "TableDialog" after it those of its parts.
    ChartSection(ReadChart* chart, const QString& name, QWidget* parent = nullptr);

    /// Called after the chart's values changed. `why`: shown in place of the chart without data.
    void refresh(const QString& note, const QString& why, NumberTable::Content table);
    void setState(ShownState state);

    QString title() const;
    QString note() const { return note_; }
    QString foot() const;  ///< the text beneath: the value that is read now, else the note
    NumberTable* table() const { return table_; }
    ReadChart* chart() const { return chart_; }
    /// As it is shown, in a width of its own.
    ExportPicture picture() const;

public slots:
    void showTable();
    void copyNumbers() const;

protected:
    void changeEvent(QEvent* event) override;

private:
    void retheme();
    void showFoot();

    ReadChart* chart_;
    NumberTable* table_;
    QLabel *title_, *foot_;
    QString note_;
    QPushButton* table_button_;
    QPointer<QDialog> dialog_;
    bool retheming_ = false;
};

}  // namespace ullage
