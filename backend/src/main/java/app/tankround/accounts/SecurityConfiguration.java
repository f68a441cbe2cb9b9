package app.tankround.accounts;

import app.tankround.web.PagePolicy;
import jakarta.servlet.DispatcherType;
import jakarta.servlet.FilterChain;
import jakarta.servlet.ServletException;
import jakarta.servlet.http.HttpServletRequest;
import jakarta.servlet.http.HttpServletResponse;
import java.io.IOException;
import java.time.Duration;
import java.util.Locale;
import org.springframework.beans.factory.annotation.Value;
import org.springframework.context.annotation.Bean;
import org.springframework.context.annotation.Configuration;
import org.springframework.core.Ordered;
import org.springframework.core.annotation.Order;
import org.springframework.http.HttpHeaders;
import org.springframework.http.HttpMethod;
import org.springframework.http.HttpStatus;
import org.springframework.http.MediaType;
import org.springframework.security.authentication.ProviderManager;
import org.springframework.security.config.annotation.web.builders.HttpSecurity;
import org.springframework.security.config.annotation.web.configurers.CsrfConfigurer;
import org.springframework.security.config.annotation.web.configurers.HeadersConfigurer.HstsConfig;
import org.springframework.security.config.annotation.web.configurers.RequestCacheConfigurer;
import org.springframework.security.config.http.SessionCreationPolicy;
import org.springframework.security.core.context.SecurityContextHolder;
import org.springframework.security.core.userdetails.UserDetailsService;
import org.springframework.security.core.userdetails.UsernameNotFoundException;
import org.springframework.security.crypto.argon2.Argon2PasswordEncoder;
import org.springframework.security.crypto.password.PasswordEncoder;
import org.springframework.security.web.SecurityFilterChain;
import org.springframework.security.web.access.AccessDeniedHandlerImpl;
import org.springframework.security.web.authentication.LoginUrlAuthenticationEntryPoint;
import org.springframework.security.web.authentication.UsernamePasswordAuthenticationFilter;
import org.springframework.security.web.context.HttpSessionSecurityContextRepository;
import org.springframework.security.web.context.RequestAttributeSecurityContextRepository;
import org.springframework.security.web.context.SecurityContextRepository;
import org.springframework.security.web.csrf.CsrfFilter;
import org.springframework.security.web.firewall.HttpFirewall;
import org.springframework.security.web.firewall.StrictHttpFirewall;
import org.springframework.security.web.header.writers.ReferrerPolicyHeaderWriter.ReferrerPolicy;
import org.springframework.security.web.util.matcher.AnyRequestMatcher;
import org.springframework.security.web.util.matcher.RequestMatcher;
import org.springframework.session.web.http.CookieSerializer;
import org.springframework.web.filter.OncePerRequestFilter;

/** Who may do what: all rights of the program stand here, by address and role. */
@Configuration(proxyBeanMethods = false)
class SecurityConfiguration {

    private static final RequestMatcher API =
            request -> request.getServletPath().startsWith("/api/");

    private static final String CALCULATIONS = "/api/calculations";
    private static final String CHALLENGE = "Basic realm=\"Tankround\", charset=\"UTF-8\"";

    /** Other programs sign in with each request; without a session there is nothing for a CSRF token to protect. */
    @Bean
    @Order(Ordered.HIGHEST_PRECEDENCE)
    SecurityFilterChain programsFilterChain(HttpSecurity http, ApplicationPasswords passwords) {
        return http.securityMatcher(SecurityConfiguration::isProgram)
                .authorizeHttpRequests(requests -> requests.anyRequest().authenticated())
                .authenticationManager(new ProviderManager(new ApplicationPasswordAuthentication(passwords)))
                .httpBasic(basic -> basic.securityContextRepository(new RequestAttributeSecurityContextRepository())
                        .authenticationEntryPoint((request, response, refusal) ->
                                refuse(request, response, HttpStatus.UNAUTHORIZED, "wrong-password")))
                .securityContext(
                        context -> context.securityContextRepository(new RequestAttributeSecurityContextRepository()))
                .sessionManagement(session -> session.sessionCreationPolicy(SessionCreationPolicy.STATELESS))
                .requestCache(RequestCacheConfigurer::disable)
                .csrf(CsrfConfigurer::disable)
                .headers(headers -> headers.contentSecurityPolicy(policy -> policy.policyDirectives(PagePolicy.USUAL))
                        .httpStrictTransportSecurity(HstsConfig::disable))
                .build();
    }

    private static boolean isProgram(HttpServletRequest request) {
        String path = request.getServletPath();
        String authorization = request.getHeader(HttpHeaders.AUTHORIZATION);
        return (path.equals(CALCULATIONS) || path.startsWith(CALCULATIONS + "/"))
                && authorization != null
                && authorization.regionMatches(true, 0, "Basic", 0, "Basic".length());
    }

    @Bean
    SecurityFilterChain securityFilterChain(
            HttpSecurity http, SecurityContextRepository contexts, PasswordGuesses guesses) {
        GuessLimit limit = new GuessLimit(guesses);
        String[] staff = {"OWNER", "OFFICE", "TECHNICIAN"};
        String[] office = {"OWNER", "OFFICE"};
        return http.authorizeHttpRequests(requests -> requests.dispatcherTypeMatchers(DispatcherType.ERROR)
                        .permitAll()
                        .requestMatchers("/error")
                        .denyAll()
                        .requestMatchers(
                                "/sign-in",
                                "/sign-in/once/*",
                                "/first-owner/*",
                                "/signature/*",
                                "/calendar/*",
                                "/connect/**",
                                "/css/**",
                                "/fonts/**",
                                "/img/**",
                                "/js/**",
                                "/problems/**",
                                "/sw.js",
                                "/tablet/page",
                                "/actuator/health")
                        .permitAll()
                        .requestMatchers(
                                "/account/**", "/api/session", "/api/application-passwords/**", CALCULATIONS + "/**")
                        .authenticated()
                        .requestMatchers("/settings/**", "/people/**", "/alone/people")
                        .hasRole("OWNER")
                        .requestMatchers(
                                "/billing/**",
                                "/calendar-feeds/**",
                                "/followups/**",
                                "/imports/**",
                                "/api/imports/**",
                                "/api/exports/**",
                                "/tablets/**",
                                "/vans/**",
                                "/target-presets/**",
                                "/week-plans/**")
                        .hasAnyRole(office)
                        // What is done at the tank and at the van's door is the technician's to write.
                        .requestMatchers(
                                "/alone/*/answer",
                                "/alone/*/release",
                                "/api/entries",
                                "/api/photos/**",
                                "/bench/**",
                                "/visits/**",
                                "/instruments/*/checks/**",
                                "/instruments/*/dropped",
                                "/instruments/*/disagreed",
                                "/standards/new",
                                "/standards/made-up/new",
                                "/standards/*/opened",
                                "/stock/batches/**",
                                "/stock/*/where",
                                "/stock/shelves/count",
                                "/socks/wash/**",
                                "/doubts/**",
                                "/rounds/*/load/**",
                                "/systems/*/quarantine/look",
                                "/systems/*/quarantine/offer",
                                "/systems/*/purified-water/write",
                                "/systems/*/purified-water/wash",
                                "/sites/*/stock",
                                "/sites/*/tap",
                                "/water-plan/account",
                                "/water-plan/kept",
                                "/water-plan/level",
                                "/water-plan/move")
                        .hasAnyRole(staff)
                        // Forms that only the office may send are not shown to anybody else.
                        .requestMatchers(
                                HttpMethod.GET,
                                "/*/new",
                                "/*/*/new",
                                "/*/*/*/new",
                                "/*/*/*/*/new",
                                "/*/*/edit",
                                "/systems/*/treatments/*/edit",
                                "/dose-rules/*",
                                "/plans/rates/*",
                                "/planned-visits/*/drop",
                                "/readings/*/correct",
                                "/rounds/*/order",
                                "/rounds/map",
                                "/rounds/repair",
                                "/sites/*/needs",
                                "/sites/*/safety",
                                "/standards/*",
                                "/stock/*",
                                "/stock/*/label/edit",
                                "/stock/*/supply/edit",
                                "/stock/orders/**",
                                "/stock/suppliers/**",
                                "/systems/*/class",
                                "/systems/*/targets",
                                "/systems/*/purified-water/points",
                                "/systems/*/purified-water/stages/*",
                                "/water-plan/terms")
                        .hasAnyRole(office)
                        .requestMatchers(HttpMethod.GET, "/**")
                        .hasAnyRole(staff)
                        .anyRequest()
                        .hasAnyRole(office))
                .formLogin(form -> form.loginPage("/sign-in")
                        .usernameParameter(GuessLimit.NAME)
                        .successHandler(limit.known())
                        .failureUrl("/sign-in?wrong")
                        .permitAll())
                .logout(logout -> logout.logoutUrl("/sign-out").logoutSuccessUrl("/sign-in?out"))
                .securityContext(context -> context.securityContextRepository(contexts))
                .exceptionHandling(handling -> handling.defaultAuthenticationEntryPointFor(
                                (request, response, refusal) ->
                                        refuse(request, response, HttpStatus.UNAUTHORIZED, "sign-in-needed"),
                                API)
                        .defaultAuthenticationEntryPointFor(
                                new LoginUrlAuthenticationEntryPoint("/sign-in"), AnyRequestMatcher.INSTANCE)
                        .defaultAccessDeniedHandlerFor(
                                (request, response, refusal) ->
                                        refuse(request, response, HttpStatus.FORBIDDEN, "not-allowed"),
                                API)
                        // One handler alone would answer for pages too.
                        .defaultAccessDeniedHandlerFor(new AccessDeniedHandlerImpl(), AnyRequestMatcher.INSTANCE))
                .headers(headers -> headers.contentSecurityPolicy(policy -> policy.policyDirectives(PagePolicy.USUAL))
                        .referrerPolicy(policy -> policy.policy(ReferrerPolicy.SAME_ORIGIN))
                        .frameOptions(frame -> frame.deny())
                        // It holds for all ports of a host, so that a tablet which has lost the authority could not
                        // even reach the page that gives it back.
                        .httpStrictTransportSecurity(HstsConfig::disable))
                .addFilterBefore(new NoSessionForStrangers(), CsrfFilter.class)
                .addFilterBefore(limit, UsernamePasswordAuthenticationFilter.class)
                .build();
    }

    /** No field takes U+0000 and the database cannot keep it, so that no request with it comes in. */
    @Bean
    HttpFirewall httpFirewall() {
        var firewall = new StrictHttpFirewall();
        firewall.setAllowedParameterNames(name -> name.indexOf('\0') < 0);
        firewall.setAllowedParameterValues(value -> value == null || value.indexOf('\0') < 0);
        return firewall;
    }

    /** Sign-in by link writes the session itself, so the repository is a bean of its own. */
    @Bean
    SecurityContextRepository securityContextRepository() {
        return new HttpSessionSecurityContextRepository();
    }

    @Bean
    CookieSerializer sessionCookie(@Value("${server.servlet.session.timeout}") Duration timeout) {
        return new SessionCookie(timeout);
    }

    @Bean
    PasswordEncoder passwordEncoder() {
        return Argon2PasswordEncoder.defaultsForSpringSecurity_v5_8();
    }

    @Bean
    UserDetailsService userDetailsService(Persons persons) {
        return name -> persons.findBySignInName(name.strip().toLowerCase(Locale.ROOT))
                .filter(person -> person.passwordHash() != null)
                .map(SignedInPerson::of)
                .orElseThrow(() -> new UsernameNotFoundException(name));
    }

    /**
     * A page that is still open after its sign-in ended goes on asking for things. What makes a session for such a
     * request, its CSRF token or the remembered address, would overwrite the cookie of whoever signs in meanwhile.
     */
    private static final class NoSessionForStrangers extends OncePerRequestFilter {

        @Override
        protected void doFilterInternal(HttpServletRequest request, HttpServletResponse response, FilterChain chain)
                throws ServletException, IOException {
            if (API.matches(request) && SecurityContextHolder.getContext().getAuthentication() == null) {
                refuse(request, response, HttpStatus.UNAUTHORIZED, "sign-in-needed");
                return;
            }
            chain.doFilter(request, response);
        }
    }

    private static void refuse(HttpServletRequest request, HttpServletResponse response, HttpStatus status, String type)
            throws IOException {
        if (status == HttpStatus.UNAUTHORIZED && request.getServletPath().startsWith(CALCULATIONS)) {
            response.setHeader(HttpHeaders.WWW_AUTHENTICATE, CHALLENGE);
        }
        response.setStatus(status.value());
        response.setContentType(MediaType.APPLICATION_PROBLEM_JSON_VALUE);
        response.getWriter().write(problem(request, status.value(), type));
    }

    private static String problem(HttpServletRequest request, int status, String type) {
        // The path is ours to percent-encode only; the container hands it over encoded.
        return """
                {"type":"/problems/%s","status":%d,"instance":"%s"}""".formatted(
                type, status, request.getRequestURI().replace("\"", "%22").replace("\\", "%5C"));
    }
}
