package app.tankround.tablet.web;

import app.tankround.web.NavigationItem;
import org.springframework.context.annotation.Bean;
import org.springframework.context.annotation.Configuration;
import org.springframework.web.servlet.config.annotation.ResourceHandlerRegistry;
import org.springframework.web.servlet.config.annotation.WebMvcConfigurer;

/** Where the tablet's pages begin, and the scripts of others that they use, from the jars in which they come. */
@Configuration(proxyBeanMethods = false)
class TabletConfiguration implements WebMvcConfigurer {

    static final String ADDRESS = "/js/lib/idb/";

    /** IndexedDB with promises, by Jake Archibald, ISC licence. */
    static final String IDB = "META-INF/resources/webjars/idb/7.0.1/build/";

    @Bean
    NavigationItem dayNavigation() {
        return NavigationItem.forStaff(15, "day", "/day");
    }

    @Override
    public void addResourceHandlers(ResourceHandlerRegistry registry) {
        registry.addResourceHandler(ADDRESS + "*.js").addResourceLocations("classpath:/" + IDB);
    }
}
