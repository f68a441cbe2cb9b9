-- What the plan of the water plant keeps to; one row at most.
create table water_plant_terms (
    only_one              boolean   primary key default true check (only_one),
    -- of the feed now; null where it is taken as last measured
    feed_c                numeric   check (feed_c between 4 and 40),
    -- of all membranes together, new, at 25 °C
    rated_l_per_hour      numeric   check (rated_l_per_hour > 0 and rated_l_per_hour <= 100000),
    loss_percent_per_year numeric   not null check (loss_percent_per_year between 0 and 50),
    fill_l_per_hour       numeric   not null check (fill_l_per_hour between 1 and 100000),
    salt_minutes          integer   not null check (salt_minutes between 0 and 480),
    heat_minutes          integer   not null check (heat_minutes between 0 and 2880),
    circulate_minutes     integer   not null check (circulate_minutes between 0 and 2880),
    measure_minutes       integer   not null check (measure_minutes between 0 and 240),
    spare_minutes         integer   not null check (spare_minutes between 0 and 1440),
    load_minutes          integer   not null check (load_minutes between 0 and 480),
    attended_from         time      not null,
    attended_until        time      not null,
    leaves_at             time      not null,
    night_from            time,
    night_until           time,
    version               integer   not null,
    check (attended_from < attended_until),
    check ((night_from is null) = (night_until is null))
);
