"""What is odd about a report: asked as findings, never mended and never refused."""
