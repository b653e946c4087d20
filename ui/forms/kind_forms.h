// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// The forms of each kind of item.

#include "ui/document/item_ref.h"

class QWidget;

namespace ullage::ui {

class Form;
class SiteDocument;

Form* makeSiteForm(SiteDocument& document, QWidget* parent);
Form* makeDatasetForm(SiteDocument& document, QWidget* parent);
Form* makeBoxForm(SiteDocument& document, QWidget* parent);
Form* makeLinkForm(SiteDocument& document, QWidget* parent);
Form* makeSendForm(SiteDocument& document, QWidget* parent);
Form* makeOfferForm(SiteDocument& document, QWidget* parent);

Form* makeForm(ItemKind kind, SiteDocument& document, QWidget* parent);

}  // namespace ullage::ui
