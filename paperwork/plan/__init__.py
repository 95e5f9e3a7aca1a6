"""What follows from the show and is never typed: who hands a pack to whom, who is live when."""
