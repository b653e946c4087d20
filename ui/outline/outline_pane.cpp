// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/outline/outline_pane.h"

#include "ui/document/item_edits.h"
#include "ui/document/site_document.h"
#include "ui/outline/outline_model.h"
#include "ui/theme/status.h"
#include "ui/window/look.h"

#include <QAction>
#include <QApplication>
#include <QHBoxLayout>
#include <QMenu>
#include <QMessageBox>
#include <QPainter>
#include <QPushButton>
#include <QStyledItemDelegate>
#include <QToolButton>
#include <QTreeView>
#include <QVBoxLayout>

namespace ullage::ui {

namespace {

constexpr double width_ems = 21;
constexpr int status_gap = 6, side_margin = 14, item_indent = 10;  ///< pixels

/// Name at the left, status at the right as shape and word.
class OutlineDelegate : public QStyledItemDelegate {
public:
    using QStyledItemDelegate::QStyledItemDelegate;

    QSize sizeHint(const QStyleOptionViewItem& option, const QModelIndex& index) const override {
        QSize size = QStyledItemDelegate::sizeHint(option, index);
        const bool is_section = index.data(OutlineModel::SectionRole).toBool();
        const bool is_site = !is_section && !index.parent().isValid();
        size.setHeight(option.fontMetrics.height() + (is_site ? 18 : is_section ? 14 : 10));
        return size;
    }

    void paint(QPainter* painter, const QStyleOptionViewItem& option,
               const QModelIndex& index) const override {
        QStyleOptionViewItem item = option;
        initStyleOption(&item, index);
        const bool is_section = index.data(OutlineModel::SectionRole).toBool();
        const bool is_site = !is_section && !index.parent().isValid();
        Theme theme = Theme::of(item.palette);
        const bool selected = item.state & QStyle::State_Selected;
        drawRow(*painter, item, theme);
        if (is_section) {
            painter->save();
            painter->setFont(scaled(item.font, 0.95, QFont::DemiBold));
            painter->setPen(legible(theme.muted, item.palette.color(QPalette::Base), 4.5));
            painter->drawText(item.rect.adjusted(side_margin, 6, -side_margin, 0),
                              Qt::AlignVCenter | Qt::AlignLeft, item.text);
            painter->restore();
            return;
        }
        if (is_site) item.font.setWeight(QFont::DemiBold);

        const QString status_text = index.data(OutlineModel::StatusTextRole).toString();
        const int side = option.fontMetrics.height() - 2;
        const int word_width = item.fontMetrics.horizontalAdvance(status_text);
        const int taken =
            status_text.isEmpty() ? 0 : word_width + side + 2 * status_gap + side_margin;
        const QString name = item.text;
        const QColor ground = selected ? theme.chosen : item.palette.color(QPalette::Base);
        const QColor ink = item.palette.color(QPalette::Text);
        painter->save();
        painter->setFont(item.font);
        painter->setPen(ink);
        const int left = is_site ? side_margin : side_margin + item_indent;
        const QRect name_box = item.rect.adjusted(left, 0, -std::max(taken, side_margin) - 4, 0);
        painter->drawText(
            name_box, Qt::AlignVCenter | Qt::AlignLeft | Qt::TextSingleLine,
            QFontMetrics(item.font).elidedText(name, Qt::ElideRight, name_box.width()));
        if (!status_text.isEmpty()) {
            const bool faulty = index.data(OutlineModel::FaultyRole).toBool();
            const QVariant level = index.data(OutlineModel::StatusRole);
            QColor word = ink;
            if (faulty || (level.isValid() && level.toInt() == static_cast<int>(Level::overruns)))
                word = legible(theme.full, ground, 4.5);
            const QRect word_box(item.rect.right() - side_margin - word_width, item.rect.top(),
                                 word_width + 1, item.rect.height());
            painter->setFont(option.font);
            painter->setPen(word);
            painter->drawText(word_box, Qt::AlignVCenter | Qt::AlignLeft | Qt::TextSingleLine,
                              status_text);
            const QRect mark(word_box.left() - status_gap - side, item.rect.center().y() - side / 2,
                             side, side);
            if (!faulty && level.isValid())
                draw_status(*painter, mark, static_cast<Level>(level.toInt()), theme);
            else
                drawPencil(*painter, mark, word);
        }
        painter->restore();
    }

private:
    /// Something to mend: a slanted stroke with a point.
    static void drawPencil(QPainter& painter, const QRectF& box, const QColor& colour) {
        painter.setRenderHint(QPainter::Antialiasing);
        const double s = box.width();
        painter.setPen(QPen(colour, s * 0.2, Qt::SolidLine, Qt::FlatCap));
        painter.drawLine(box.topLeft() + QPointF(s * 0.82, s * 0.18),
                         box.topLeft() + QPointF(s * 0.34, s * 0.66));
        painter.setPen(Qt::NoPen);
        painter.setBrush(colour);
        painter.drawPolygon(QPolygonF({box.topLeft() + QPointF(s * 0.24, s * 0.58),
                                       box.topLeft() + QPointF(s * 0.42, s * 0.76),
                                       box.topLeft() + QPointF(s * 0.12, s * 0.88)}));
    }
};

bool askToRemove(QWidget* parent, const QString& question, const QString& consequences) {
    QMessageBox box(QMessageBox::Question, OutlinePane::tr("Remove"), question,
                    QMessageBox::NoButton, parent);
    box.setInformativeText(consequences);
    QPushButton* remove = box.addButton(OutlinePane::tr("Remove"), QMessageBox::DestructiveRole);
    box.addButton(QMessageBox::Cancel);
    box.setDefaultButton(QMessageBox::Cancel);
    box.exec();
    return box.clickedButton() == remove;
}

}  // namespace

OutlinePane::OutlinePane(SiteDocument& document, OutlineModel& model, QWidget* parent)
    : QWidget(parent),
      document_(document),
      model_(model),
      view_(new QTreeView(this)),
      add_menu_(new QMenu(tr("&Add"), this)) {
    setObjectName(QStringLiteral("outlinePane"));
    confirm_ = [this](const QString& question, const QString& consequences) {
        return askToRemove(window(), question, consequences);
    };

    view_->setObjectName(QStringLiteral("outline"));
    view_->setAccessibleName(tr("Outline of the site"));
    view_->setModel(&model_);
    view_->setItemDelegate(new OutlineDelegate(view_));
    view_->setHeaderHidden(true);
    view_->setRootIsDecorated(false);
    view_->setItemsExpandable(false);
    view_->setIndentation(0);
    view_->setFrameShape(QFrame::NoFrame);
    view_->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    view_->setEditTriggers(QAbstractItemView::EditKeyPressed);
    view_->setContextMenuPolicy(Qt::CustomContextMenu);
    view_->setUniformRowHeights(false);
    view_->expandAll();

    for (const ItemKind kind : listed_kinds) {
        const QString name = kindName(kind);
        QAction* add = add_menu_->addAction(name.left(1).toUpper() + name.mid(1));
        add->setObjectName(QStringLiteral("add.%1").arg(static_cast<int>(kind)));
        connect(add, &QAction::triggered, this, [this, kind] { addNew(kind); });
        add_actions_.append(add);
    }
    const auto action = [this](const QString& text, const QString& name, const QKeySequence& key) {
        auto* made = new QAction(text, this);
        made->setObjectName(name);
        made->setShortcut(key);
        made->setShortcutContext(Qt::WidgetWithChildrenShortcut);
        addAction(made);
        return made;
    };
    duplicate_ = action(tr("&Duplicate"), QStringLiteral("duplicate"), QKeySequence(tr("Ctrl+D")));
    up_ = action(tr("Mo&ve up"), QStringLiteral("moveUp"), QKeySequence(tr("Alt+Up")));
    down_ = action(tr("Move do&wn"), QStringLiteral("moveDown"), QKeySequence(tr("Alt+Down")));
    rename_ = action(tr("Re&name"), QStringLiteral("rename"), QKeySequence(Qt::Key_F2));
    remove_ = action(tr("Re&move"), QStringLiteral("remove"), QKeySequence::Delete);
    connect(duplicate_, &QAction::triggered, this, &OutlinePane::duplicateChosen);
    connect(up_, &QAction::triggered, this, [this] { moveChosen(-1); });
    connect(down_, &QAction::triggered, this, [this] { moveChosen(1); });
    connect(rename_, &QAction::triggered, this, &OutlinePane::renameChosen);
    connect(remove_, &QAction::triggered, this, &OutlinePane::removeChosen);

    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(0, 0, 0, 0);
    column->setSpacing(0);
    column->addWidget(view_, 1);
    auto* row = new QHBoxLayout;
    row->setContentsMargins(8, 6, 8, 8);
    row->setSpacing(4);
    const auto button = [&](const QString& text, const QString& name) {
        auto* made = new QToolButton(this);
        made->setObjectName(name);
        made->setText(text);
        made->setAccessibleName(text);
        made->setAutoRaise(true);
        made->setMinimumHeight(controlHeight(this));
        made->setFocusPolicy(Qt::StrongFocus);
        row->addWidget(made);
        return made;
    };
    QToolButton* add = button(tr("Add…"), QStringLiteral("outline.add"));
    connect(add, &QToolButton::clicked, this, [this, add] {
        add_menu_->popup(add->mapToGlobal(QPoint(0, -add_menu_->sizeHint().height())));
    });
    QToolButton* duplicate = button(tr("Duplicate"), QStringLiteral("outline.duplicate"));
    connect(duplicate, &QToolButton::clicked, duplicate_, &QAction::trigger);
    QToolButton* remove = button(tr("Remove"), QStringLiteral("outline.remove"));
    connect(remove, &QToolButton::clicked, remove_, &QAction::trigger);
    row->addStretch();
    column->addLayout(row);
    const auto follow = [](QAction* from, QToolButton* to) {
        connect(from, &QAction::enabledChanged, to, &QToolButton::setEnabled);
    };
    follow(duplicate_, duplicate);
    follow(remove_, remove);

    connect(view_->selectionModel(), &QItemSelectionModel::currentChanged, this,
            [this](const QModelIndex& now) {
                if (const auto item = model_.itemOf(now)) {
                    chosen_ = *item;
                    emit itemChosen(*item);
                }
                updateActions();
            });
    connect(view_, &QTreeView::activated, this, [this](const QModelIndex& at) {
        if (model_.itemOf(at)) emit formWanted();
    });
    connect(view_, &QTreeView::customContextMenuRequested, this, &OutlinePane::showMenu);
    connect(&model_, &OutlineModel::modelReset, this, [this] {
        view_->expandAll();
        choose({});
    });
    connect(&model_, &OutlineModel::rowsInserted, view_, [this] { view_->expandAll(); });
    connect(&model_, &OutlineModel::renameRefused, this, &OutlinePane::refused);
    connect(&document_, &SiteDocument::siteChanged, this, [this] {
        keepChoice();
        updateActions();
    });
    updateActions();
}

QSize OutlinePane::sizeHint() const { return {ems(this, width_ems), 400}; }

QList<QAction*> OutlinePane::itemActions() const {
    return {duplicate_, up_, down_, rename_, remove_};
}

void OutlinePane::choose(ItemRef item) {
    const QModelIndex at = model_.indexOf(item);
    if (!at.isValid()) return;
    view_->setCurrentIndex(at);
    view_->scrollTo(at);
}

ItemRef OutlinePane::chosen() const { return chosen_; }

void OutlinePane::keepChoice() {
    if (exists(document_.site(), chosen_)) return;
    const int count = countOf(document_.site(), chosen_.kind);
    choose(count > 0 ? ItemRef{chosen_.kind, count - 1} : ItemRef{});
}

void OutlinePane::updateActions() {
    const bool has_item =
        document_.isOpen() && chosen_.kind != ItemKind::site && exists(document_.site(), chosen_);
    duplicate_->setEnabled(has_item);
    remove_->setEnabled(has_item);
    up_->setEnabled(has_item && chosen_.index > 0);
    down_->setEnabled(has_item &&
                      chosen_.index + 1 < countOf(document_.site(), chosen_.kind));
    rename_->setEnabled(document_.isOpen());
    for (std::size_t i = 0; i < listed_kinds.size(); ++i) {
        const QString missing = missingFor(document_.site(), listed_kinds[i]);
        QAction* add = add_actions_[static_cast<qsizetype>(i)];
        add->setEnabled(document_.isOpen() && missing.isEmpty());
        add->setToolTip(missing);
        add->setStatusTip(missing);
    }
}

void OutlinePane::addNew(ItemKind kind) {
    const QString missing = missingFor(document_.site(), kind);
    if (!missing.isEmpty()) {
        emit refused(missing);
        return;
    }
    ItemRef added;
    document_.editSite(tr("new %1").arg(kindName(kind)),
                       [&](Site& site) { added = addItem(site, kind); });
    choose(added);
    emit formWanted();
}

void OutlinePane::duplicateChosen() {
    if (chosen_.kind == ItemKind::site) return;
    ItemRef copy;
    document_.editSite(tr("copy of %1").arg(nameOf(document_.site(), chosen_)),
                       [&](Site& site) { copy = duplicateItem(site, chosen_); });
    choose(copy);
}

void OutlinePane::moveChosen(int by) {
    if (chosen_.kind == ItemKind::site || !exists(document_.site(), chosen_)) return;
    ItemRef moved;
    document_.editSite(tr("move of %1").arg(nameOf(document_.site(), chosen_)),
                       [&](Site& site) { moved = moveItem(site, chosen_, by); });
    choose(moved);
}

void OutlinePane::renameChosen() { view_->edit(model_.indexOf(chosen_)); }

void OutlinePane::removeChosen() {
    const ItemRef item = chosen_;
    if (item.kind == ItemKind::site || !exists(document_.site(), item)) return;
    const QString name = nameOf(document_.site(), item);
    const QStringList consequences = consequencesOfRemoval(document_.site(), item);
    if (!consequences.isEmpty()) {
        QStringList sentences;
        for (const QString& phrase : consequences)
            sentences << phrase.left(1).toUpper() + phrase.mid(1) + QLatin1Char('.');
        if (!confirm_(tr("Remove the %1 “%2”?").arg(kindName(item.kind), name),
                      sentences.join(QLatin1Char('\n'))))
            return;
    }
    document_.editSite(tr("removal of %1").arg(name), [&](Site& site) { removeItem(site, item); });
    const int left = countOf(document_.site(), item.kind);
    choose(left > 0 ? ItemRef{item.kind, std::min(item.index, left - 1)} : ItemRef{});
    // The row may be the same while the item in it is another.
    emit itemChosen(chosen_);
}

void OutlinePane::showMenu(const QPoint& at) {
    if (!document_.isOpen()) return;
    QMenu menu(this);
    menu.setObjectName(QStringLiteral("outlineMenu"));
    const QModelIndex index = view_->indexAt(at);
    const ItemKind kind = model_.kindOf(index);
    if (index.isValid() && kind != ItemKind::site) {
        QAction* add = menu.addAction(tr("Add a %1").arg(kindName(kind)));
        add->setEnabled(missingFor(document_.site(), kind).isEmpty());
        connect(add, &QAction::triggered, this, [this, kind] { addNew(kind); });
    } else {
        menu.addMenu(add_menu_);
    }
    if (model_.itemOf(index)) {
        menu.addSeparator();
        menu.addActions(itemActions());
    }
    menu.exec(view_->viewport()->mapToGlobal(at));
}

}  // namespace ullage::ui
