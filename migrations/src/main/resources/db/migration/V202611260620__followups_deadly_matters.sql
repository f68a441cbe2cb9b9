-- what kills stands before all else, and what ended a matter may be a page, such as that of a measurement
alter table followup add column settled_page text check (settled_page is null or settled_at is not null);
alter table followup drop constraint followup_urgency_check;
alter table followup add constraint followup_urgency_check check (urgency in ('DEADLY', 'NOW', 'TODAY', 'SOON'));
update followup
set urgency = 'DEADLY'
where settled_at is null
    and (code like 'readings.deadly.%' or code = 'plans.followup.dose-danger');
create index followup_settled_at on followup (settled_at) where settled_at is not null;
create index followup_topic on followup (topic);
