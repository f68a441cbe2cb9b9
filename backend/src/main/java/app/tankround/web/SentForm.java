package app.tankround.web;

import jakarta.servlet.http.HttpServletResponse;
import java.util.Optional;
import java.util.function.Consumer;
import java.util.function.Supplier;
import org.springframework.http.HttpStatus;
import org.springframework.ui.Model;
import org.springframework.validation.BindingResult;

/**
 * What a page does with a form that was sent: what was read is saved, a refusal goes to its field, and where somebody else
 * was faster, the answer is 409 with both versions over the form, which changes the newest one when it is sent again.
 */
public final class SentForm {

    private final BindingResult result;
    private final Model model;
    private final HttpServletResponse response;

    /** @param model where {@code form} is the form, and {@code differences} those that the page shows over it */
    public SentForm(BindingResult result, Model model, HttpServletResponse response) {
        this.result = result;
        this.model = model;
        this.response = response;
    }

    /**
     * Saves what was read of a form.
     *
     * @param form as it was sent
     * @param read empty where something was refused, which the form then shows already
     * @param stored makes the form of what is stored now, and adds to the model what else the page shows of that
     * @return whether it is saved; if not, the form is to be shown again
     */
    public <F extends VersionedForm<F>, C> boolean saved(
            F form, Optional<C> read, Consumer<C> save, Supplier<F> stored) {
        if (read.isEmpty()) {
            return false;
        }
        try {
            save.accept(read.get());
            return true;
        } catch (FieldRefusal refusal) {
            refusal.into(result);
        } catch (StaleVersion stale) {
            F newest = stored.get();
            response.setStatus(HttpStatus.CONFLICT.value());
            model.addAttribute("differences", form.differencesFrom(newest));
            model.addAttribute("form", form.withVersion(newest.version()));
        }
        return false;
    }
}
