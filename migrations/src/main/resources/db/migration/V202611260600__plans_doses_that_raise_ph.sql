-- A product that raises alkalinity or pH is held against ammonia first.
alter table dose_rule drop constraint dose_rule_kind_check;
alter table dose_rule add constraint dose_rule_kind_check
    check (kind in ('SUPPLEMENT', 'ALKALINITY', 'CONDITIONER', 'MEDICATION', 'COPPER', 'ALGICIDE', 'OTHER'));

-- What was entered as a dose of its own is named as every field of a visit is, so that a correction finds its line.
create temporary table renamed on commit drop as
select key as old_key, left(key, 36) || '/dose' || substring(key from 37) as new_key
from dose_given
where not agreed
    and key ~ '^[0-9a-f]{8}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{12}/'
    and key not like '%/dose/%';

update dose_given set key = renamed.new_key from renamed where dose_given.key = renamed.old_key;
update followup
set topic = 'dose-given-against:' || renamed.new_key
from renamed
where followup.topic = 'dose-given-against:' || renamed.old_key;
