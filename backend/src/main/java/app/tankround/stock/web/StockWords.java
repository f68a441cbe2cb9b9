package app.tankround.stock.web;

import app.tankround.stock.StockAccount;
import app.tankround.stock.StockItemView;
import app.tankround.stock.StockKind;
import app.tankround.stock.StockPlaces;
import java.math.BigDecimal;
import java.text.NumberFormat;
import java.util.Locale;
import org.springframework.context.MessageSource;
import org.springframework.stereotype.Component;

/** How items, amounts and accounts are said on the pages of the stock. */
@Component
class StockWords {

    private static final int AMOUNT_DECIMALS = 6;

    private final StockPlaces places;
    private final MessageSource messages;

    StockWords(StockPlaces places, MessageSource messages) {
        this.places = places;
        this.messages = messages;
    }

    String name(StockItemView item, Locale locale) {
        return switch (item.kind()) {
            case TEST_KIT -> word("quantity." + item.name(), locale);
            case SOCK, SALT, MEDIA, DOSE -> item.title();
        };
    }

    String kind(StockKind kind, Locale locale) {
        return word("stock.kind." + kind, locale);
    }

    String unit(String unit, Locale locale) {
        return unit.equals("count") ? word("stock.unit.count", locale) : unit;
    }

    /** Such as {@code 12.5 kg} or {@code 3 pieces}. */
    String amount(BigDecimal amount, String unit, Locale locale) {
        NumberFormat format = NumberFormat.getNumberInstance(locale);
        format.setMaximumFractionDigits(AMOUNT_DECIMALS);
        return format.format(amount) + " " + unit(unit, locale);
    }

    String account(StockAccount account, Locale locale) {
        return places.say(account, locale);
    }

    String word(String key, Locale locale) {
        return messages.getMessage(key, null, locale);
    }
}
