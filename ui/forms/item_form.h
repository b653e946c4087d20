// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// A form on items of one type: makes fields from functions that read and write a part of the item.
///
/// Each helper names a label, the JSON key, how to read the part and how to write it. A part that
/// may be absent is an optional; an empty field makes it absent.

#include "ui/document/item_edits.h"
#include "ui/document/site_document.h"
#include "ui/forms/checks_field.h"
#include "ui/forms/choice_field.h"
#include "ui/forms/form.h"
#include "ui/forms/number_text.h"
#include "ui/forms/quantity_field.h"
#include "ui/forms/table_field.h"

#include <QCoreApplication>

#include <algorithm>
#include <optional>
#include <utility>

namespace ullage::ui {

template <class Item>
class ItemForm : public Form {
public:
    /// Finds the item in a site; the index is in range.
    using Find = std::function<Item&(Site&, int)>;

    ItemForm(SiteDocument& site_document, ItemKind of_kind, Find find, QWidget* parent)
        : Form(site_document, of_kind, parent), find_(std::move(find)) {}

protected:
    /// The item as it is. The site is not changed through it.
    const Item& now() const { return find_(const_cast<Site&>(document().site()), item().index); }
    Item& in(Site& site) const { return find_(site, item().index); }

    TextField* text(const QString& label, const QString& key,
                    std::function<QString(const Item&)> read,
                    std::function<QString(Item&, const QString&)> write) {
        TextField::Binding binding;
        binding.text = [this, read] { return read(now()); };
        binding.commit = [this, label, key, write](const QString& typed) {
            return commit(label, key, [&](Site& site) { return write(in(site), typed); });
        };
        return add(new TextField(label, key, std::move(binding), this));
    }

    /// A text that is taken as it is.
    TextField* plainText(const QString& label, const QString& key, std::string Item::*member) {
        return text(
            label, key, [member](const Item& it) { return QString::fromStdString(it.*member); },
            [member](Item& it, const QString& typed) {
                it.*member = typed.trimmed().toStdString();
                return QString();
            });
    }

    /// The name, which is changed everywhere it is used.
    TextField* name(const QString& label) {
        const QString key = QStringLiteral("/name");
        TextField::Binding binding;
        binding.text = [this] { return nameOf(document().site(), item()); };
        binding.commit = [this, label, key](const QString& typed) {
            return commit(label, key, [&](Site& site) { return renameItem(site, item(), typed); });
        };
        return add(new TextField(label, key, std::move(binding), this));
    }

    template <class T>
    TextField* quantity(const QString& label, const QString& key,
                        std::function<std::optional<Entered<T>>(const Item&)> read,
                        std::function<void(Item&, const std::optional<Entered<T>>&)> write,
                        bool may_be_empty) {
        typename QuantityField<T>::Value value;
        value.get = [this, read] { return read(now()); };
        value.set = [this, label, key, write](const std::optional<Entered<T>>& typed) {
            return commit(label, key, [&](Site& site) {
                write(in(site), typed);
                return QString();
            });
        };
        value.may_be_empty = may_be_empty;
        TextField* field = add(new QuantityField<T>(label, key, std::move(value), this));
        field->setPlaceholder(Form::tr("such as %1").arg(QLatin1String(QuantityText<T>::example)));
        return field;
    }
    template <class T>
    TextField* quantity(const QString& label, const QString& key, Entered<T> Item::*member) {
        return quantity<T>(
            label, key, [member](const Item& it) { return std::optional(it.*member); },
            [member](Item& it, const std::optional<Entered<T>>& typed) { it.*member = *typed; },
            false);
    }
    template <class T>
    TextField* quantity(const QString& label, const QString& key,
                        std::optional<Entered<T>> Item::*member) {
        return quantity<T>(
            label, key, [member](const Item& it) { return it.*member; },
            [member](Item& it, const std::optional<Entered<T>>& typed) { it.*member = typed; },
            true);
    }

    /// A plain number, a share in percent, a whole number, a date, a time of day: see
    /// number_text.h.
    template <class Value>
    TextField* value(const QString& label, const QString& key, const ValueText<Value>& as,
                     std::function<Value(const Item&)> read,
                     std::function<void(Item&, Value)> write) {
        return text(
            label, key, [as, read](const Item& it) { return as.write(read(it)); },
            [as, write](Item& it, const QString& typed) {
                auto parsed = as.read(typed.trimmed());
                if (!parsed) return QString::fromStdString(parsed.error());
                write(it, *parsed);
                return QString();
            });
    }
    template <class Value>
    TextField* value(const QString& label, const QString& key, const ValueText<Value>& as,
                     Value Item::*member) {
        return value<Value>(
            label, key, as, [member](const Item& it) { return it.*member; },
            [member](Item& it, Value typed) { it.*member = typed; });
    }

    ChoiceField* choice(const QString& label, const QString& key,
                        std::function<QList<Choice>()> choices,
                        std::function<QString(const Item&)> read,
                        std::function<void(Item&, const QString&)> write) {
        ChoiceField::Binding binding;
        binding.choices = std::move(choices);
        binding.value = [this, read] { return read(now()); };
        binding.commit = [this, label, key, write](const QString& chosen) {
            return commit(label, key, [&](Site& site) {
                write(in(site), chosen);
                return QString();
            });
        };
        return add(new ChoiceField(label, key, std::move(binding), this));
    }

    /// One of a few values of an enumeration.
    template <class E>
    ChoiceField* choice(const QString& label, const QString& key,
                        QList<std::pair<E, QString>> names, std::function<E(const Item&)> read,
                        std::function<void(Item&, E)> write) {
        QList<Choice> list;
        for (const auto& [of, shown] : names)
            list.append({QString::number(static_cast<int>(of)), shown});
        return choice(
            label, key, [list] { return list; },
            [read](const Item& it) { return QString::number(static_cast<int>(read(it))); },
            [write](Item& it, const QString& chosen) {
                write(it, static_cast<E>(chosen.toInt()));
            });
    }
    template <class E>
    ChoiceField* choice(const QString& label, const QString& key,
                        QList<std::pair<E, QString>> names, E Item::*member) {
        return choice<E>(
            label, key, std::move(names), [member](const Item& it) { return it.*member; },
            [member](Item& it, E chosen) { it.*member = chosen; });
    }

    /// The name of an item of another kind.
    ChoiceField* reference(const QString& label, const QString& key, ItemKind to,
                           std::string Item::*member, const QString& none = {}) {
        return choice(
            label, key,
            [this, to, none] {
                QList<Choice> names;
                if (!none.isEmpty()) names.append({QString(), none});
                for (int i = 0; i < countOf(document().site(), to); ++i) {
                    const QString found = nameOf(document().site(), {to, i});
                    names.append({found, found});
                }
                return names;
            },
            [member](const Item& it) { return QString::fromStdString(it.*member); },
            [member](Item& it, const QString& chosen) { it.*member = chosen.toStdString(); });
    }

    /// A table over a list that `list` finds in the item. `cells` gives the texts of one row,
    /// `write` puts a text into a cell of one row, `fresh` makes a new row from those there are.
    template <class Row>
    TableField* table(const QString& label, const QString& key, QList<TableField::Column> columns,
                      std::function<std::vector<Row>&(Item&)> list,
                      std::function<QStringList(const Row&)> cells,
                      std::function<QString(Row&, int, const QString&)> write,
                      std::function<Row(const std::vector<Row>&)> fresh, bool ordered) {
        const auto edit = [this, label, key,
                           list](const std::function<QString(std::vector<Row>&)>& change) {
            return commit(label, key, [&](Site& site) { return change(list(in(site))); });
        };
        TableField::Binding binding;
        binding.rows = [this, list, cells] {
            QList<QStringList> rows;
            Item copy = now();
            for (const Row& row : list(copy)) rows.append(cells(row));
            return rows;
        };
        binding.commit = [edit, write](int row, int column, const QString& typed) {
            return edit([&](std::vector<Row>& rows) {
                return write(rows[static_cast<std::size_t>(row)], column, typed.trimmed());
            });
        };
        binding.add = [edit, fresh] {
            return edit([&](std::vector<Row>& rows) {
                rows.push_back(fresh(rows));
                return QString();
            });
        };
        binding.remove = [edit](int row) {
            return edit([&](std::vector<Row>& rows) {
                rows.erase(rows.begin() + row);
                return QString();
            });
        };
        if (ordered)
            binding.move = [edit](int row, int by) {
                return edit([&](std::vector<Row>& rows) {
                    std::swap(rows[static_cast<std::size_t>(row)],
                              rows[static_cast<std::size_t>(row + by)]);
                    return QString();
                });
            };
        return add(new TableField(label, key, std::move(columns), std::move(binding), this));
    }

private:
    Find find_;
};

}  // namespace ullage::ui
