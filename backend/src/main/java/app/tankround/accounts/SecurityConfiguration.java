package app.tankround.accounts;

import jakarta.servlet.DispatcherType;
import jakarta.servlet.http.HttpServletRequest;
import java.util.Locale;
import org.springframework.context.annotation.Bean;
import org.springframework.context.annotation.Configuration;
import org.springframework.http.HttpMethod;
import org.springframework.http.HttpStatus;
import org.springframework.http.MediaType;
import org.springframework.security.config.annotation.web.builders.HttpSecurity;
import org.springframework.security.core.userdetails.UserDetailsService;
import org.springframework.security.core.userdetails.UsernameNotFoundException;
import org.springframework.security.crypto.argon2.Argon2PasswordEncoder;
import org.springframework.security.crypto.password.PasswordEncoder;
import org.springframework.security.web.SecurityFilterChain;
import org.springframework.security.web.access.AccessDeniedHandlerImpl;
import org.springframework.security.web.authentication.LoginUrlAuthenticationEntryPoint;
import org.springframework.security.web.context.HttpSessionSecurityContextRepository;
import org.springframework.security.web.context.SecurityContextRepository;
import org.springframework.security.web.firewall.HttpFirewall;
import org.springframework.security.web.firewall.StrictHttpFirewall;
import org.springframework.security.web.header.writers.ReferrerPolicyHeaderWriter.ReferrerPolicy;
import org.springframework.security.web.util.matcher.AnyRequestMatcher;
import org.springframework.security.web.util.matcher.RequestMatcher;

/** Who may do what: all rights of the program stand here, by address and role. */
@Configuration(proxyBeanMethods = false)
class SecurityConfiguration {

    /** No inline script or style, nothing from elsewhere; photos may come from the page's own memory. */
    private static final String CONTENT_SECURITY_POLICY = "default-src 'none'; script-src 'self'; style-src 'self'; "
            + "img-src 'self' blob: data:; font-src 'self'; connect-src 'self'; manifest-src 'self'; "
            + "worker-src 'self'; form-action 'self'; frame-ancestors 'none'; base-uri 'none'";

    private static final RequestMatcher API =
            request -> request.getServletPath().startsWith("/api/");

    @Bean
    SecurityFilterChain securityFilterChain(HttpSecurity http, SecurityContextRepository contexts) {
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
                                "/css/**",
                                "/fonts/**",
                                "/img/**",
                                "/js/**",
                                "/problems/**",
                                "/actuator/health")
                        .permitAll()
                        .requestMatchers("/account/**", "/api/session")
                        .authenticated()
                        .requestMatchers("/settings/**", "/people/**")
                        .hasRole("OWNER")
                        .requestMatchers(
                                "/billing/**",
                                "/imports/**",
                                "/api/imports/**",
                                "/api/exports/**",
                                "/vans/**",
                                "/target-presets/**")
                        .hasAnyRole(office)
                        // What is done at the tank and at the van's door is the technician's to write.
                        .requestMatchers(
                                "/api/entries",
                                "/api/photos/**",
                                "/visits/**",
                                "/instruments/*/checks/**",
                                "/rounds/*/load/**")
                        .hasAnyRole(staff)
                        .requestMatchers(HttpMethod.GET, "/**")
                        .hasAnyRole(staff)
                        .anyRequest()
                        .hasAnyRole(office))
                .formLogin(form -> form.loginPage("/sign-in")
                        .usernameParameter("signInName")
                        .failureUrl("/sign-in?wrong")
                        .permitAll())
                .logout(logout -> logout.logoutUrl("/sign-out").logoutSuccessUrl("/sign-in?out"))
                .securityContext(context -> context.securityContextRepository(contexts))
                .exceptionHandling(handling -> handling.defaultAuthenticationEntryPointFor(
                                (request, response, refusal) -> {
                                    response.setStatus(HttpStatus.UNAUTHORIZED.value());
                                    response.setContentType(MediaType.APPLICATION_PROBLEM_JSON_VALUE);
                                    response.getWriter().write(problem(request, 401, "sign-in-needed"));
                                },
                                API)
                        .defaultAuthenticationEntryPointFor(
                                new LoginUrlAuthenticationEntryPoint("/sign-in"), AnyRequestMatcher.INSTANCE)
                        .defaultAccessDeniedHandlerFor(
                                (request, response, refusal) -> {
                                    response.setStatus(HttpStatus.FORBIDDEN.value());
                                    response.setContentType(MediaType.APPLICATION_PROBLEM_JSON_VALUE);
                                    response.getWriter().write(problem(request, 403, "not-allowed"));
                                },
                                API)
                        // One handler alone would answer for pages too.
                        .defaultAccessDeniedHandlerFor(new AccessDeniedHandlerImpl(), AnyRequestMatcher.INSTANCE))
                .headers(headers -> headers.contentSecurityPolicy(
                                policy -> policy.policyDirectives(CONTENT_SECURITY_POLICY))
                        .referrerPolicy(policy -> policy.policy(ReferrerPolicy.SAME_ORIGIN))
                        .frameOptions(frame -> frame.deny()))
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

    private static String problem(HttpServletRequest request, int status, String type) {
        // The path is ours to percent-encode only; the container hands it over encoded.
        return """
                {"type":"/problems/%s","status":%d,"instance":"%s"}""".formatted(
                type, status, request.getRequestURI().replace("\"", "%22").replace("\\", "%5C"));
    }
}
