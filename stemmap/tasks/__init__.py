"""What both shells can do: inputs, options and progress in, a result out."""
