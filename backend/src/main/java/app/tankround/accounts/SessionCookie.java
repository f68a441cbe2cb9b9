package app.tankround.accounts;

import jakarta.servlet.http.HttpServletRequest;
import java.time.Duration;
import java.util.List;
import org.springframework.session.web.http.CookieSerializer;
import org.springframework.session.web.http.DefaultCookieSerializer;

/**
 * The cookie of a session: where the browser speaks HTTPS, one that it never sends without and takes from this host
 * only ({@code __Host-}, RFC 6265bis, 4.1.3). On the machine itself plain HTTP is answered too, and there not every
 * browser keeps such a cookie. Neither is taken where the other belongs. It outlives the browser: a tablet whose battery
 * gave out sends what it holds without its technician having to sign in, for which there may be nobody to ask.
 */
class SessionCookie implements CookieSerializer {

    private static final String NAME = "tankround-session";

    private final CookieSerializer overHttps;
    private final CookieSerializer plain;

    /** @param lifetime from the sign-in on */
    SessionCookie(Duration lifetime) {
        overHttps = named("__Host-" + NAME, true, lifetime);
        plain = named(NAME, false, lifetime);
    }

    @Override
    public void writeCookieValue(CookieValue value) {
        of(value.getRequest()).writeCookieValue(value);
    }

    @Override
    public List<String> readCookieValues(HttpServletRequest request) {
        return of(request).readCookieValues(request);
    }

    private CookieSerializer of(HttpServletRequest request) {
        return request.isSecure() ? overHttps : plain;
    }

    private static CookieSerializer named(String name, boolean secure, Duration lifetime) {
        var cookie = new DefaultCookieSerializer();
        cookie.setCookieName(name);
        cookie.setUseSecureCookie(secure);
        cookie.setUseHttpOnlyCookie(true);
        cookie.setSameSite("Lax");
        cookie.setCookiePath("/");
        cookie.setCookieMaxAge(Math.toIntExact(lifetime.toSeconds()));
        return cookie;
    }
}
