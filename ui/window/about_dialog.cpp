// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/window/about_dialog.h"

#include "ui/help/guide_text.h"
#include "ui/help/licences.h"
#include "ui/window/look.h"

#include <QDialogButtonBox>
#include <QGridLayout>
#include <QLabel>
#include <QVBoxLayout>

namespace ullage::ui {

AboutDialog::AboutDialog(QWidget* parent) : QDialog(parent) {
    setObjectName(QStringLiteral("about"));
    setWindowTitle(tr("About Ullage"));
    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(24, 20, 24, 16);
    column->setSpacing(8);
    const auto paragraph = [&](const QString& text) {
        auto* label = new QLabel(text, this);
        label->setWordWrap(true);
        label->setTextFormat(Qt::PlainText);
        label->setMinimumWidth(ems(this, 34));
        column->addWidget(label);
        return label;
    };
    column->addWidget(headingLabel(tr("Ullage"), 1.7, this));
    column->addWidget(quietLabel(
        tr("Version %1, with Qt %2").arg(QLatin1String(ULLAGE_VERSION), QLatin1String(qVersion())),
        this));
    paragraph(
        tr("Forecasts how full a copy-on-write storage box gets, when, and whether the line "
           "carries its copies."));
    paragraph(
        tr("Free software under the GNU General Public License, version 3 or later "
           "(GPL-3.0-or-later). It comes without any warranty."));
    column->addSpacing(8);
    column->addWidget(headingLabel(tr("Before you rely on it"), 1.1, this));
    for (const QString& caution : cautions()) paragraph(QStringLiteral("•  ") + caution);
    column->addSpacing(8);
    column->addWidget(headingLabel(tr("Built upon"), 1.1, this));
    auto* works = new QGridLayout;
    works->setHorizontalSpacing(20);
    works->setVerticalSpacing(2);
    works->setColumnStretch(1, 1);
    for (const UsedWork& work : usedWorks()) {
        const int row = works->rowCount();
        works->addWidget(new QLabel(work.name, this), row, 0);
        works->addWidget(quietLabel(work.licence, this), row, 1);
    }
    column->addLayout(works);
    column->addSpacing(8);
    auto* buttons = new QDialogButtonBox(QDialogButtonBox::Close, this);
    connect(buttons, &QDialogButtonBox::rejected, this, &QDialog::reject);
    column->addWidget(buttons);
    column->setSizeConstraint(QLayout::SetFixedSize);
}

}  // namespace ullage::ui
