UPDATE `intake` SET `brought` = (
	SELECT json_group_array(json_array(`feature_id`, `rows`)) FROM `intake_feature` WHERE `intake_id` = `intake`.`id`
) WHERE EXISTS (SELECT 1 FROM `intake_feature` WHERE `intake_id` = `intake`.`id`);
--> statement-breakpoint
DROP TABLE `intake_feature`;
