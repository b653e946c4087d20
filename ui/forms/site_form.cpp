// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/forms/item_form.h"
#include "ui/forms/kind_forms.h"

namespace ullage::ui {

namespace {

class SiteForm : public ItemForm<Site> {
    Q_DECLARE_TR_FUNCTIONS(ullage::ui::SiteForm)

public:
    SiteForm(SiteDocument& site_document, QWidget* parent)
        : ItemForm<Site>(
              site_document, ItemKind::site, [](Site& site, int) -> Site& { return site; },
              parent) {
        beginSection(tr("Site"));
        plainText(tr("Name"), QStringLiteral("/name"), &Site::name);
        plainText(tr("Prepared for"), QStringLiteral("/prepared_for"), &Site::prepared_for);
        plainText(tr("Prepared by"), QStringLiteral("/prepared_by"), &Site::prepared_by);

        beginSection(tr("Forecast"));
        value(tr("As of"), QStringLiteral("/as_of"), date(), &Site::as_of)
            ->setHint(tr("The day from which the forecast looks ahead, such as 2026-11-01."));
        quantity(tr("Horizon"), QStringLiteral("/horizon"), &Site::horizon)
            ->setHint(tr("How far ahead, such as 5 y."));
        value(tr("Confidence"), QStringLiteral("/confidence"), share(), &Site::confidence)
            ->setHint(tr("How sure an answer must be: 90 % means in 9 of 10 futures."));

        beginSection(tr("Conventions"));
        plainText(tr("Time zone"), QStringLiteral("/time_zone"), &Site::time_zone)
            ->setHint(tr("Times of day are in this zone, such as Europe/Lisbon."));
        plainText(tr("Currency"), QStringLiteral("/currency"), &Site::currency);
        quantity(tr("Energy price"), QStringLiteral("/energy_price"), &Site::energy_price)
            ->setPlaceholder(tr("such as 0.32 EUR/kWh"))
            ->setHint(tr("Of a kWh; what offers draw is not paid for without it."));
    }
};

}  // namespace

Form* makeSiteForm(SiteDocument& document, QWidget* parent) {
    return new SiteForm(document, parent);
}

Form* makeForm(ItemKind kind, SiteDocument& document, QWidget* parent) {
    switch (kind) {
        case ItemKind::site:
            return makeSiteForm(document, parent);
        case ItemKind::dataset:
            return makeDatasetForm(document, parent);
        case ItemKind::box:
            return makeBoxForm(document, parent);
        case ItemKind::link:
            return makeLinkForm(document, parent);
        case ItemKind::send:
            return makeSendForm(document, parent);
        case ItemKind::offer:
            return makeOfferForm(document, parent);
    }
    return nullptr;
}

}  // namespace ullage::ui
