// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/compare/comparison_bar.h"

#include "ui/compare/differences.h"

#include <QApplication>
#include <QClipboard>
#include <QComboBox>
#include <QDialog>
#include <QHBoxLayout>
#include <QInputDialog>
#include <QLabel>
#include <QPushButton>
#include <QSignalBlocker>

namespace ullage {

ComparisonBar::ComparisonBar(KeptList& kept, QWidget* parent)
    : QWidget(parent), kept_(kept), table_(new NumberTable(this)) {
    setObjectName(QStringLiteral("comparisonBar"));
    ask_ = [this](const QString& name) {
        return QInputDialog::getText(window(), tr("Rename"), tr("Name"), QLineEdit::Normal, name);
    };
    auto* row = new QHBoxLayout(this);
    row->setContentsMargins(18, 6, 18, 6);
    row->setSpacing(8);
    auto* label = new QLabel(tr("Com&pared with"), this);
    chooser_ = new QComboBox(this);
    chooser_->setObjectName(QStringLiteral("comparedWith"));
    chooser_->setAccessibleName(tr("Compared with"));
    chooser_->setSizeAdjustPolicy(QComboBox::AdjustToContents);
    label->setBuddy(chooser_);
    row->addWidget(label);
    row->addWidget(chooser_);
    const auto add = [&](const QString& text, const QString& name, const QString& hint) {
        auto* button = new QPushButton(text, this);
        button->setObjectName(name);
        button->setToolTip(hint);
        row->addWidget(button);
        return button;
    };
    differences_ = add(tr("Differences…"), QStringLiteral("compare.differences"),
                       tr("A table of both values and the change"));
    row->addStretch(1);
    revert_ = add(tr("Go back to it"), QStringLiteral("compare.revert"),
                  tr("Edits the site to be as it was; this can be undone"));
    rename_ = add(tr("Rename…"), QStringLiteral("compare.rename"), {});
    drop_ = add(tr("Drop"), QStringLiteral("compare.drop"), tr("Forgets what was kept"));

    connect(&kept_, &KeptList::changed, this, &ComparisonBar::refresh);
    connect(chooser_, &QComboBox::activated, this,
            [this](int index) { kept_.choose(index - 1); });
    connect(differences_, &QPushButton::clicked, this, &ComparisonBar::showDifferences);
    connect(revert_, &QPushButton::clicked, this, &ComparisonBar::revertWanted);
    connect(rename_, &QPushButton::clicked, this, &ComparisonBar::renameChosen);
    connect(drop_, &QPushButton::clicked, this, [this] { kept_.drop(kept_.chosenIndex()); });
    refresh();
}

void ComparisonBar::setPresent(PresentOutlook present) {
    present_ = std::move(present);
    refreshTable();
}

void ComparisonBar::setPrefixes(Prefixes prefixes) {
    prefixes_ = prefixes;
    refreshTable();
}

void ComparisonBar::refresh() {
    {
        const QSignalBlocker quiet(chooser_);
        chooser_->clear();
        chooser_->addItem(tr("nothing"));
        chooser_->addItems(kept_.names());
        chooser_->setCurrentIndex(kept_.chosenIndex() + 1);
    }
    const bool any = kept_.chosen() != nullptr;
    for (QPushButton* button : {differences_, rename_, drop_, revert_}) button->setEnabled(any);
    setVisible(!kept_.all().empty());
    refreshTable();
}

void ComparisonBar::refreshTable() {
    const KeptOutlook* kept = kept_.chosen();
    table_->setContent(kept ? differences(*kept, present_, prefixes_) : NumberTable::Content());
    if (!kept && dialog_) dialog_->close();
}

void ComparisonBar::showDifferences() {
    if (!kept_.chosen()) return;
    if (dialog_) {
        dialog_->raise();
        dialog_->activateWindow();
        return;
    }
    dialog_ = show_table(this, QStringLiteral("differencesDialog"), tr("Differences"), table_, [this] {
        QApplication::clipboard()->setText(table_->tabSeparated());
    });
}

void ComparisonBar::renameChosen() {
    if (const KeptOutlook* kept = kept_.chosen()) {
        const QString name = ask_(kept->name);
        if (!name.isEmpty()) kept_.rename(kept_.chosenIndex(), name);
    }
}

}  // namespace ullage
