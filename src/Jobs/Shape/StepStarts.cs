using System.Globalization;

namespace Athwart.Jobs.Shape;

/// <summary>With which settings a step begins when it is added by hand: gentle ones, to be changed by ear. Common practice, no source.</summary>
public static class StepStarts
{
    /// <summary>A step of this kind.</summary>
    /// <param name="kind">The kind.</param>
    /// <param name="frames">Frames of the take: a stretch begins as all of it.</param>
    /// <param name="sampleRateHertz">Its rate.</param>
    public static TreatmentStep Of(StepKind kind, long frames, int sampleRateHertz)
    {
        ArgumentNullException.ThrowIfNull(kind);
        var gap = Math.Min(frames, sampleRateHertz / 1000);
        return StepFields.Parse($$"""{"step":"{{kind.Name}}"{{Settings(kind.Name, frames, gap)}}}""");
    }

    private static string Settings(string kind, long frames, long gap) => kind switch
    {
        "invert" => """, "roles":"side" """,
        "trim" => """, "roles":"side", "gainDecibels":-3""",
        "delay" => """, "roles":"side", "milliseconds":0""",
        "low-cut" => """, "roles":"both", "cutoffHertz":60, "slopeDecibelsPerOctave":12""",
        "high-cut" => """, "roles":"both", "cutoffHertz":16000, "slopeDecibelsPerOctave":12""",
        "bell" => """, "roles":"mid", "centreHertz":2500, "gainDecibels":2, "q":0.8""",
        "low-shelf" => """, "roles":"side", "cornerHertz":200, "gainDecibels":-3, "q":0.7""",
        "high-shelf" => """, "roles":"both", "cornerHertz":6000, "gainDecibels":2, "q":0.7""",
        "response-match" => """, "roles":"side", "bands":[{"hertz":1000,"decibels":0}], "phase":"minimum" """,
        "hum-cut" => """, "roles":"both", "track":[{"frame":0,"hertz":50}], "harmonics":[1,2,3,4], "widthHertz":1, "depthDecibels":40""",
        "repair" => string.Create(CultureInfo.InvariantCulture, $", \"roles\":\"both\", \"ranges\":[{{\"fromFrame\":0,\"toFrame\":{gap}}}]"),
        "wind-reduction" => string.Create(CultureInfo.InvariantCulture, $", \"ranges\":[{{\"fromFrame\":0,\"toFrame\":{frames}}}], \"cornerHertz\":200, \"crossfadeMilliseconds\":100"),
        "width-curve" => """, "points":[{"hertz":100,"decibels":-3},{"hertz":1000,"decibels":0}], "phase":"minimum" """,
        "shuffler" => """, "cornerHertz":600, "gainDecibels":4, "law":"side-only", "phase":"minimum" """,
        "mono-below" => """, "cornerHertz":120, "slopeDecibelsPerOctave":12, "phase":"minimum" """,
        "balance" => """, "degrees":5, "method":"steer", "midOmniShare":0.5""",
        "width-over-time" => string.Create(CultureInfo.InvariantCulture, $", \"points\":[{{\"frame\":0,\"sideDecibels\":-6}},{{\"frame\":{Math.Max(1, frames)},\"sideDecibels\":0}}]"),
        "side-alone" => """, "midAsSideDecibels":"-Infinity" """,
        "made-up-side" => """, "method":"velvet-noise", "levelDecibels":-6, "spreadSeconds":0.03, "lowestHertz":120, "seed":0, "keepsSide":false""",
        "transient-balance" => """, "roles":"side", "transientDecibels":-3, "sustainDecibels":0, "quickSeconds":0.002, "slowSeconds":0.08""",
        "width-follows" => """, "quantity":"level", "low":-50, "high":-15, "lowSideDecibels":-3, "highSideDecibels":2, "riseSeconds":0.03, "fallSeconds":0.3""",
        "speed" => """, "ratio":0.5, "roles":"both" """,
        "mono-guard" => """, "lowestCorrelation":0, "smoothingSeconds":0.03, "holdSeconds":0.05""",
        // Swap and the match to the rig have nothing to set.
        _ => "",
    };
}
