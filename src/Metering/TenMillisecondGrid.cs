namespace Athwart.Metering;

/// <summary>Cuts a take into steps of 10 ms, each edge rounded to the nearest frame, so that windows never drift.</summary>
internal readonly record struct TenMillisecondGrid(int SampleRateHertz)
{
    /// <summary>Steps in 100 ms, in the 400 ms of a gating block and momentary loudness, and in the 3 s of short-term loudness.</summary>
    public const int HopSteps = 10, MomentarySteps = 40, ShortTermSteps = 300;

    /// <summary>The frame at which step number <paramref name="step"/> begins.</summary>
    public long FrameOf(long step) => ((step * SampleRateHertz) + 50) / 100;

    /// <summary>Frames in so many steps from a step on.</summary>
    public long FramesIn(long firstStep, long steps) => FrameOf(firstStep + steps) - FrameOf(firstStep);
}
