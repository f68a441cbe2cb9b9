-- When the visits of an agreement fall is said by a rule of RFC 5545. Those that were agreed before get the rule that gives
-- the same days: weeks begin on the weekday of the first day, from which periods were counted, and the visit of each is on
-- its first allowed weekday.
alter table agreement
    add column rule       text,
    -- parts of the year with a rule of their own, such as 10-01/03-31 FREQ=WEEKLY;INTERVAL=2;BYDAY=MO, with bars between
    add column seasons    text    not null default '',
    -- days on which it rests, such as 2026-12-20/2027-01-06, with bars between
    add column pauses     text    not null default '',
    -- the longest time between two visits; null for fewer than two
    add column every_days integer check (every_days > 0);

update agreement a
set rule = 'FREQ=WEEKLY'
        || case when every_weeks > 1 then ';INTERVAL=' || every_weeks else '' end
        || ';BYDAY=' || (
            select d.code
            from generate_series(0, 6) as ahead
            cross join lateral (
                select (array['MO', 'TU', 'WE', 'TH', 'FR', 'SA', 'SU'])[extract(isodow from a.valid_from + ahead)::integer] as code
            ) d
            where d.code = any (string_to_array(a.weekdays, ','))
            order by ahead
            limit 1)
        || case
               when every_weeks > 1 and extract(isodow from valid_from) > 1
               then ';WKST=' || (array['MO', 'TU', 'WE', 'TH', 'FR', 'SA', 'SU'])[extract(isodow from valid_from)::integer]
               else ''
           end,
    every_days = case
        when valid_until is null or valid_until >= valid_from + 14 * every_weeks then 7 * every_weeks
    end;

alter table agreement
    alter column rule set not null,
    add check (rule ~ '^FREQ=(DAILY|WEEKLY|MONTHLY|YEARLY)(;|$)'),
    alter column seasons drop default,
    alter column pauses drop default,
    drop column every_weeks;
