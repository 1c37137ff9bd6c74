"""What is seen of practice: the bench with its live dial, the lessons, the debrief."""
