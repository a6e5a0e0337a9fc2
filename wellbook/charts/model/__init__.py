"""What a chart says, before anything is drawn: frozen and comparable."""
