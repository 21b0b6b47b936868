CREATE TABLE `api_key` (
	`id` integer PRIMARY KEY NOT NULL,
	`name` text NOT NULL,
	`hint` text NOT NULL,
	`secret_digest` text NOT NULL,
	`scopes` text NOT NULL,
	`created_at` integer NOT NULL,
	`account_id` integer,
	`expires_at` integer,
	`last_used_at` integer,
	`revoked_at` integer,
	FOREIGN KEY (`account_id`) REFERENCES `account`(`id`) ON UPDATE no action ON DELETE no action
);
--> statement-breakpoint
CREATE UNIQUE INDEX `api_key_secret_digest_unique` ON `api_key` (`secret_digest`);--> statement-breakpoint
CREATE TABLE `message_out` (
	`id` integer PRIMARY KEY AUTOINCREMENT NOT NULL,
	`target_id` integer NOT NULL,
	`kind` text NOT NULL,
	`detail` text NOT NULL,
	`at` integer NOT NULL,
	`state` text NOT NULL,
	`tries` integer DEFAULT 0 NOT NULL,
	`next_try_at` integer NOT NULL,
	`ended_at` integer,
	`last_error` text DEFAULT '' NOT NULL,
	FOREIGN KEY (`target_id`) REFERENCES `message_target`(`id`) ON UPDATE no action ON DELETE no action
);
--> statement-breakpoint
CREATE INDEX `message_out_waiting` ON `message_out` (`state`,`next_try_at`);--> statement-breakpoint
CREATE TABLE `message_target` (
	`id` integer PRIMARY KEY NOT NULL,
	`kind` text NOT NULL,
	`name` text NOT NULL,
	`address` text NOT NULL,
	`secret` text DEFAULT '' NOT NULL,
	`created_at` integer NOT NULL,
	`account_id` integer,
	`ended_at` integer,
	FOREIGN KEY (`account_id`) REFERENCES `account`(`id`) ON UPDATE no action ON DELETE no action
);
--> statement-breakpoint
CREATE TABLE `news` (
	`id` integer PRIMARY KEY AUTOINCREMENT NOT NULL,
	`at` integer NOT NULL,
	`kind` text NOT NULL,
	`detail` text NOT NULL
);
--> statement-breakpoint
CREATE TABLE `post_answer` (
	`api_key_id` integer NOT NULL,
	`idempotency_key` text NOT NULL,
	`body_digest` text NOT NULL,
	`status` integer NOT NULL,
	`answer` text NOT NULL,
	`at` integer NOT NULL,
	PRIMARY KEY(`api_key_id`, `idempotency_key`)
);
--> statement-breakpoint
CREATE INDEX `post_answer_in_time` ON `post_answer` (`at`);