-- How long work on a due visit took, as the visit was recorded: a visit to several systems at once shares its minutes out
-- by what was agreed. Null where nobody recorded it, or a visit was left open for more than a day.
alter table planned_visit add column worked_minutes double precision
    check (worked_minutes > 0 and worked_minutes <= 1440);
create index planned_visit_worked on planned_visit (agreement_id, done_on desc) where worked_minutes is not null;

update planned_visit p
set worked_minutes = shared.minutes
from (
    select d.id, extract(epoch from v.finished_at - v.started_at) / 60 * d.minutes / sum(d.minutes) over (partition by v.id) as minutes
    from visit v
    join planned_visit d on d.id = any(v.planned_visits)
    where v.finished_at > v.started_at and v.finished_at <= v.started_at + interval '1 day'
) as shared
where shared.id = p.id and p.state = 'DONE' and shared.minutes > 0;
