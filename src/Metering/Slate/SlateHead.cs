namespace Athwart.Metering.Slate;

/// <summary>The head of a take in steps of ten milliseconds.</summary>
/// <param name="Frames">The steps.</param>
/// <param name="StepSeconds">From one to the next.</param>
internal sealed record SlateHead(IReadOnlyList<VoiceFrame> Frames, double StepSeconds);

/// <summary>A stretch in which somebody speaks.</summary>
/// <param name="From">Its first step.</param>
/// <param name="To">The step after its last.</param>
/// <param name="SyllablesASecond">Rises of its level.</param>
/// <param name="PitchHertz">Middle pitch where it is voiced.</param>
/// <param name="VoicedShare">Share of its sounding steps that have a pitch, 0 to 1.</param>
/// <param name="SideBelowMidDecibels">How far the side lies below the mid where it is voiced.</param>
internal readonly record struct SpokenStretch(int From, int To, double SyllablesASecond, double PitchHertz, double VoicedShare, double SideBelowMidDecibels);
