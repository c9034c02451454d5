"""Views in, HTML text out: what a page shows is settled in a view, how it looks in a template."""
