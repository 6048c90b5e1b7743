using Athwart.Recordings;

namespace Athwart.Jobs.Render;

/// <summary>Says in a file that it is a loop.</summary>
internal static class LoopMarks
{
    /// <summary>The usual note at which a sampler plays a sound as it is: middle C.</summary>
    private const int MiddleC = 60;

    /// <summary>Adds the `smpl` chunk and a marker over the whole file when the plan makes a loop; a file too long for the chunk goes without.</summary>
    public static WaveWriterOptions Looped(this WaveWriterOptions options, RenderPlan plan)
    {
        if (plan.Source.Loop is null || plan.OutputFrames is 0 or > uint.MaxValue)
            return options;
        return options with
        {
            Markers = [new(0, plan.OutputFrames, "loop", ""), .. options.Markers],
            Sampler = new()
            {
                UnityNote = MiddleC,
                SamplePeriodNanoseconds = (uint)Math.Round(1e9 / plan.Output.SampleRateHertz),
                Loops = [new(1, 0, 0, (uint)(plan.OutputFrames - 1), 0)],
            },
        };
    }
}
