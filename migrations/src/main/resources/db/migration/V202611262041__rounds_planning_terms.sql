-- What planning costs, in the business's currency, and what it keeps to; without the row the usual terms hold.
create table planning_terms (
    only_one            boolean primary key default true check (only_one),
    driving_hour        numeric(12, 2) not null check (driving_hour between 0 and 30000),
    kilometre           numeric(12, 2) not null check (kilometre between 0 and 10000),
    overtime_hour       numeric(12, 2) not null check (overtime_hour between 0 and 30000),
    round               numeric(12, 2) not null check (round between 0 and 1000000),
    -- each day that a visit leaves its tolerance
    day_beyond          numeric(12, 2) not null check (day_beyond between 0 and 1000000),
    stranger            numeric(12, 2) not null check (stranger between 0 and 1000000),
    promise             numeric(12, 2) not null check (promise between 0 and 1000000),
    late_hour           numeric(12, 2) not null check (late_hour between 0 and 30000),
    -- each hour of work that a week has beyond its share
    uneven_hour         numeric(12, 2) not null check (uneven_hour between 0 and 30000),
    disinfection        numeric(12, 2) not null check (disinfection between 0 and 100000),
    left_out            numeric(12, 2) not null check (left_out between 0 and 1000000),
    days_beyond         integer not null check (days_beyond between 0 and 14),
    overtime_minutes    integer not null check (overtime_minutes between 0 and 480),
    -- a break of 0 minutes is none
    break_after_minutes integer not null check (break_after_minutes between 60 and 720),
    break_minutes       integer not null check (break_minutes between 0 and 120),
    version             integer not null
);
