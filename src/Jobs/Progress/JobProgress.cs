namespace Athwart.Jobs.Progress;

/// <summary>How far a long job has come.</summary>
/// <param name="Step">What is being done, for people: 'Reading back gate.wav'.</param>
/// <param name="Done">Units done: bytes or frames.</param>
/// <param name="Total">Units in all; 0 while not known.</param>
/// <param name="Unit">What is counted: 'bytes', 'frames' or 'files'.</param>
public sealed record JobProgress(string Step, long Done, long Total, string Unit);
