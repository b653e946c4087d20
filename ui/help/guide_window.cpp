// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/help/guide_window.h"

#include "ui/help/guide_text.h"
#include "ui/window/look.h"

#include <QHBoxLayout>
#include <QListWidget>
#include <QTextBrowser>

#include <algorithm>

namespace ullage::ui {

namespace {
constexpr double contents_ems = 13, width_ems = 60, height_ems = 40;
}

GuideWindow::GuideWindow(QWidget* parent)
    : QDialog(parent), contents_(new QListWidget(this)), text_(new QTextBrowser(this)) {
    setObjectName(QStringLiteral("guide"));
    setWindowTitle(tr("Guide"));
    contents_->setObjectName(QStringLiteral("guide.contents"));
    contents_->setAccessibleName(tr("Sections of the guide"));
    contents_->setFixedWidth(ems(this, contents_ems));
    contents_->setFrameShape(QFrame::NoFrame);
    text_->setObjectName(QStringLiteral("guide.text"));
    text_->setFrameShape(QFrame::NoFrame);
    text_->setOpenLinks(false);
    text_->document()->setDocumentMargin(ems(this, 1.4));
    for (const GuideSection& section : guideSections()) {
        auto* row = new QListWidgetItem(section.title, contents_);
        row->setData(Qt::UserRole, section.id);
        row->setSizeHint({0, controlHeight(this)});
    }
    auto* panes = new QHBoxLayout(this);
    panes->setContentsMargins(0, 0, 0, 0);
    panes->setSpacing(0);
    panes->addWidget(contents_);
    panes->addWidget(text_, 1);
    resize(ems(this, width_ems), ems(this, height_ems));
    connect(contents_, &QListWidget::currentRowChanged, this, &GuideWindow::fill);
    contents_->setCurrentRow(0);
}

void GuideWindow::fill(int row) {
    const GuideSection section = guideSections().value(std::max(0, row));
    QString html = QStringLiteral("<h2>%1</h2>").arg(section.title.toHtmlEscaped());
    for (const QString& paragraph : section.paragraphs)
        html += QStringLiteral("<p style=\"line-height: 130%\">%1</p>").arg(paragraph.toHtmlEscaped());
    text_->setHtml(html);
    text_->setAccessibleName(section.title);
}

void GuideWindow::showSection(const QString& id) {
    int found = 0;
    for (int row = 0; row < contents_->count(); ++row)
        if (contents_->item(row)->data(Qt::UserRole).toString() == id) found = row;
    contents_->setCurrentRow(found);
}

QString GuideWindow::section() const {
    const QListWidgetItem* now = contents_->currentItem();
    return now ? now->data(Qt::UserRole).toString() : QString();
}

}  // namespace ullage::ui
