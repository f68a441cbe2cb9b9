package app.tankround.loads;

import app.tankround.accounts.BusinessProfile;
import app.tankround.tanks.WaterSystemId;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import org.springframework.context.MessageSource;
import org.springframework.stereotype.Service;

/** Load sheets in words, in the units of the business, with what was ticked. */
@Service
public class LoadPages {

    private final LoadTicks ticks;
    private final LoadClosings closings;
    private final ReturnedWater water;
    private final LoadedStock stock;
    private final BusinessProfile business;
    private final MessageSource messages;

    LoadPages(
            LoadTicks ticks,
            LoadClosings closings,
            ReturnedWater water,
            LoadedStock stock,
            BusinessProfile business,
            MessageSource messages) {
        this.ticks = ticks;
        this.closings = closings;
        this.water = water;
        this.stock = stock;
        this.business = business;
        this.messages = messages;
    }

    public LoadPage of(LoadSheet sheet, Locale locale) {
        LoadWords words = LoadWords.of(business.current(), messages, locale);
        Optional<LoadClosing> closing = closings.of(sheet.round().id());
        return LoadPage.of(
                sheet,
                ticks.of(sheet.round().id()),
                closing,
                stock.lots(
                        sheet.round(),
                        sheet.lines(),
                        closing.map(LoadClosing::lines).orElse(List.of())),
                words);
    }

    /** How the water for a change of a system is made up there; nothing for one that is on no sheet. */
    public List<String> water(LoadSheet sheet, WaterSystemId system, Locale locale) {
        LoadWords words = LoadWords.of(business.current(), messages, locale);
        return sheet.waters().getOrDefault(system, List.of()).stream()
                .map(words::say)
                .toList();
    }

    /** What comes back from a round. */
    public ReturnPage of(ReturnSheet sheet, Locale locale) {
        LoadWords words = LoadWords.of(business.current(), messages, locale);
        return ReturnPage.of(sheet, words, thing -> water.ways(sheet.round(), thing, words, locale));
    }
}
