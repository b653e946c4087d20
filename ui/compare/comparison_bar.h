// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// A bar above the pages while something is kept: what the present is compared with, a table of the
/// differences, and what can be done with what is kept. Hidden while nothing is.

#include "ui/charts/number_table.h"
#include "ui/compare/kept_list.h"

#include <QPointer>
#include <QWidget>

#include <functional>

class QComboBox;
class QDialog;
class QPushButton;

namespace ullage {

class ComparisonBar : public QWidget {
    Q_OBJECT

public:
    explicit ComparisonBar(KeptList& kept, QWidget* parent = nullptr);

    void setPresent(PresentOutlook present);
    void setPrefixes(Prefixes prefixes);
    const NumberTable& table() const { return *table_; }
    /// Replaces the question for a name: given the present one, returns the new or an empty text.
    void setAskForName(std::function<QString(const QString& name)> ask) { ask_ = std::move(ask); }

    void showDifferences();
    void renameChosen();

signals:
    /// The user wants the chosen one's site back.
    void revertWanted();

private:
    void refresh();
    void refreshTable();

    KeptList& kept_;
    PresentOutlook present_;
    Prefixes prefixes_ = Prefixes::decimal;
    std::function<QString(const QString&)> ask_;
    NumberTable* table_;
    QComboBox* chooser_;
    QPushButton *differences_, *rename_, *drop_, *revert_;
    QPointer<QDialog> dialog_;
};

}  // namespace ullage
