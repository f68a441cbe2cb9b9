package app.tankround.accounts;

import jakarta.servlet.FilterChain;
import jakarta.servlet.ServletException;
import jakarta.servlet.http.HttpServletRequest;
import jakarta.servlet.http.HttpServletResponse;
import java.io.IOException;
import java.time.Duration;
import java.util.Optional;
import org.springframework.http.HttpHeaders;
import org.springframework.http.HttpMethod;
import org.springframework.security.core.Authentication;
import org.springframework.security.web.authentication.SavedRequestAwareAuthenticationSuccessHandler;
import org.springframework.web.filter.OncePerRequestFilter;

/** Turns a password away unseen where too many were wrong, and says for how long. */
final class GuessLimit extends OncePerRequestFilter {

    static final String NAME = "signInName";

    private final PasswordGuesses guesses;

    GuessLimit(PasswordGuesses guesses) {
        this.guesses = guesses;
    }

    @Override
    protected void doFilterInternal(HttpServletRequest request, HttpServletResponse response, FilterChain chain)
            throws ServletException, IOException {
        if (!HttpMethod.POST.matches(request.getMethod())
                || !request.getServletPath().equals("/sign-in")) {
            chain.doFilter(request, response);
            return;
        }
        Optional<Duration> wait = guesses.count(name(request), request.getRemoteAddr());
        if (wait.isEmpty()) {
            chain.doFilter(request, response);
            return;
        }
        String seconds = String.valueOf(wait.get().toSeconds() + 1);
        response.setHeader(HttpHeaders.RETRY_AFTER, seconds);
        response.sendRedirect("/sign-in?wait=" + seconds);
    }

    /** Where a sign-in leads to, once it no longer counts as a guess. */
    SavedRequestAwareAuthenticationSuccessHandler known() {
        return new SavedRequestAwareAuthenticationSuccessHandler() {
            @Override
            public void onAuthenticationSuccess(
                    HttpServletRequest request, HttpServletResponse response, Authentication authentication)
                    throws ServletException, IOException {
                guesses.known(name(request), request.getRemoteAddr());
                super.onAuthenticationSuccess(request, response, authentication);
            }
        };
    }

    private static String name(HttpServletRequest request) {
        return Optional.ofNullable(request.getParameter(NAME)).orElse("");
    }
}
