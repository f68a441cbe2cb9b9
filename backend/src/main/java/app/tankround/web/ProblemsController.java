package app.tankround.web;

import java.util.Locale;
import org.springframework.context.MessageSource;
import org.springframework.stereotype.Controller;
import org.springframework.ui.Model;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.PathVariable;

/** The help page that each problem's {@code type} points to. */
@Controller
class ProblemsController {

    private final MessageSource messages;

    ProblemsController(MessageSource messages) {
        this.messages = messages;
    }

    @GetMapping("/problems/{type}")
    String problem(@PathVariable String type, Model model, Locale locale) {
        String title = messages.getMessage("web.problem." + type, null, "", locale);
        if (title == null || title.isEmpty()) {
            throw new NotFound("problem", type);
        }
        model.addAttribute("title", title);
        model.addAttribute("help", messages.getMessage("web.problem." + type + ".help", null, "", locale));
        return "web/problem";
    }
}
