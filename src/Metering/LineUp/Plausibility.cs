using Athwart.Quantities;
using static System.FormattableString;

namespace Athwart.Metering.LineUp;

/// <summary>What a measured rig should not show.</summary>
internal static class Plausibility
{
    private const double SquareDegrees = 5;
    private const double BackwardsDecibels = 3;
    private const double UnequalDecibels = 1.5;
    private const double DisagreeDecibels = 2;
    private const double LateFrames = 0.5;
    private const double PatternTolerance = 0.1;

    /// <summary>Every finding, faults first.</summary>
    public static IReadOnlyList<Finding> Judge(LineUpResult result, IReadOnlyList<DirectionSums> sums)
    {
        IEnumerable<Finding?> all =
        [
            AlreadyDecoded(result),
            NotFigureEight(result),
            Swapped(result),
            Inverted(result),
            Backwards(sums),
            NotSquare(result),
            Pattern(result),
            Unequal(result),
            Late(result),
            .. sums.Select(Disagree),
            Unknown("which channel is the mid", result.FirstIsMid.IsKnown ? "" : result.FirstIsMid.Doubt),
            Unknown("the side's polarity", result.SideInverted.IsKnown ? "" : result.SideInverted.Doubt),
            Unknown("the gain offset", result.GainOffset.Doubt),
            Unknown("the delay", result.Delay.Doubt),
        ];
        return all.OfType<Finding>().OrderByDescending(f => f.Severity).ToList();
    }

    private static Finding? Unknown(string what, string doubt) => doubt.Length == 0 ? null : new()
    {
        Kind = LineUpKinds.CannotTell,
        Severity = FindingSeverity.Caution,
        Message = $"It cannot be told: {what}; {doubt}.",
        Remedy = "Line up again: three sharp claps a direction at 2 m or more from ground and walls, out of the wind.",
    };

    private static Finding? Swapped(LineUpResult result) => !result.FirstIsMid.IsKnown || result.FirstIsMid.Answer ? null : new()
    {
        Kind = LineUpKinds.RolesSwapped,
        Severity = FindingSeverity.Caution,
        Confidence = result.FirstIsMid.Probability,
        Message = "The first channel behaves as a side and the second as a mid: the front is weak in the first.",
        Remedy = "Set the roles of the session: athwart roles --mid 2 --side 1.",
    };

    private static Finding? Inverted(LineUpResult result) => !result.SideInverted.IsKnown || !result.SideInverted.Answer ? null : new()
    {
        Kind = LineUpKinds.SideInverted,
        Severity = FindingSeverity.Caution,
        Role = ChannelRole.Side,
        Confidence = result.SideInverted.Probability,
        Message = "Sounds from the left are opposed in mid and side: the side's positive lobe points right, and left and right would be changed over.",
        Remedy = "Turn the side over: athwart roles --invert-side.",
    };

    private static Finding? Backwards(IReadOnlyList<DirectionSums> sums)
    {
        var front = sums.FirstOrDefault(d => d.Direction.AzimuthDegrees == 0);
        var rear = sums.FirstOrDefault(d => d.Direction.Cosine < -0.9);
        if (front is null || rear is null)
            return null;
        var louder = rear.MidDecibels - front.MidDecibels;
        var margin = BackwardsDecibels + Math.Sqrt(Square(front.LoudnessDeviation) + Square(rear.LoudnessDeviation));
        return louder <= margin ? null : new()
        {
            Kind = LineUpKinds.MidBackwards,
            Severity = FindingSeverity.Fault,
            Role = ChannelRole.Mid,
            Confidence = Math.Min(0.99, 1 - (0.5 * Math.Exp(-(louder - margin + 3) / 3))),
            Size = louder,
            SizeUnit = "dB",
            Message = Invariant($"The rear is {louder:0.0} dB louder in the mid than the front, which no mid that faces the front allows: it points backwards, or front and rear were changed over."),
            Remedy = "Turn the mid round, or name the order as it was with --order, and line up again.",
        };
    }

    private static Finding? NotSquare(LineUpResult result)
    {
        if (!result.SideAngle.IsKnown || Math.Abs(result.SideAngle.Value - 90) < SquareDegrees + result.SideAngle.Uncertainty)
            return null;
        var off = result.SideAngle.Value - 90;
        return new()
        {
            Kind = LineUpKinds.SideNotSquare,
            Severity = FindingSeverity.Caution,
            Role = ChannelRole.Side,
            Size = Math.Abs(off),
            SizeUnit = "degrees",
            Message = Invariant($"The side hears the front: its positive lobe points {result.SideAngle.Value:0;−0} ± {result.SideAngle.Uncertainty:0.0} degrees to the left of the front instead of 90."),
            Remedy = Invariant($"Turn the side {Math.Abs(off):0} degrees to the {(off > 0 ? "right" : "left")}, and line up again; if the sound was not straight in front of the mid, the stand is askew instead."),
        };
    }

    private static Finding? NotFigureEight(LineUpResult result)
    {
        var left = Sideways(result, 1);
        var right = Sideways(result, -1);
        if (left is null || right is null || !Sure(left.SignedRatio) || !Sure(right.SignedRatio) || left.SignedRatio.Value * right.SignedRatio.Value <= 0 || AlreadyDecoded(result) is not null)
            return null;
        return new()
        {
            Kind = LineUpKinds.SideNotFigureEight,
            Severity = FindingSeverity.Fault,
            Role = ChannelRole.Side,
            Message = "Left and right have the same polarity in the side: it is no figure-8.",
            Remedy = "Check which microphone is in the side's channel and what pattern is switched on.",
        };
    }

    private static Finding? AlreadyDecoded(LineUpResult result)
    {
        var (left, right) = (Sideways(result, 1), Sideways(result, -1));
        if (left is not { SideOverMid.IsKnown: true } || right is not { SideOverMid.IsKnown: true } || !Sure(left.SignedRatio) || !Sure(right.SignedRatio))
            return null;
        // A stereo pair hears each side more strongly in its own channel, front alike in both, and all in phase.
        var lean = left.SideOverMid.Value - right.SideOverMid.Value;
        if (left.SignedRatio.Value <= 0 || right.SignedRatio.Value <= 0 || Math.Abs(lean) < 4)
            return null;
        return new()
        {
            Kind = LineUpKinds.AlreadyDecoded,
            Severity = FindingSeverity.Fault,
            Size = Math.Abs(lean),
            SizeUnit = "dB",
            Message = Invariant($"One channel hears the left and the other the right, {Math.Abs(lean):0.0} dB apart and in phase: these are left and right, not mid and side."),
            Remedy = "Record mid and side without the recorder's decoding, and line up again.",
        };
    }

    private static Finding? Pattern(LineUpResult result)
    {
        var measured = result.MeasuredMidPattern;
        if (!measured.IsKnown || Math.Abs(measured.Value - result.MidPattern) <= PatternTolerance + measured.Uncertainty)
            return null;
        return new()
        {
            Kind = LineUpKinds.PatternDisagrees,
            Severity = FindingSeverity.Caution,
            Role = ChannelRole.Mid,
            Message = Invariant($"Front, sides and rear are as loud in the mid as A = {measured.Value:0.00} ± {measured.Uncertainty:0.00} has them, not A = {result.MidPattern:0.00}."),
            Remedy = "Check the mid's pattern switch, and that all sounds were equally loud and equally far.",
        };
    }

    private static Finding? Unequal(LineUpResult result)
    {
        if (Sideways(result, 1) is not { SideOverMid.IsKnown: true } left || Sideways(result, -1) is not { SideOverMid.IsKnown: true } right || left.Direction.AzimuthDegrees != -right.Direction.AzimuthDegrees)
            return null;
        var apart = left.SideOverMid.Value - right.SideOverMid.Value;
        if (Math.Abs(apart) < UnequalDecibels + left.SideOverMid.Uncertainty + right.SideOverMid.Uncertainty)
            return null;
        return new()
        {
            Kind = LineUpKinds.SidesUnequal,
            Severity = FindingSeverity.Caution,
            Size = Math.Abs(apart),
            SizeUnit = "dB",
            Message = Invariant($"Side over mid is {Math.Abs(apart):0.0} dB higher from the {(apart > 0 ? "left" : "right")}: the mid does not face the front, or the sounds were not at equal angles."),
            Remedy = "Point the mid at the front, clap from the line of the side's axis, and line up again.",
        };
    }

    private static Finding? Late(LineUpResult result) => !result.Delay.IsKnown || Math.Abs(result.Delay.Value) < LateFrames + result.Delay.Uncertainty ? null : new()
    {
        Kind = LineUpKinds.SideLate,
        Severity = FindingSeverity.Note,
        Role = ChannelRole.Side,
        Size = result.Delay.Value,
        SizeUnit = "frames",
        Message = Invariant($"The side is {Math.Abs(result.Delay.Value):0.00} ± {result.Delay.Uncertainty:0.00} frames {(result.Delay.Value > 0 ? "late" : "early")} ({Math.Abs(result.Delay.Value) * 1e6 / result.SampleRateHertz:0} µs)."),
        Remedy = "Shift the side by that much before decoding.",
    };

    private static Finding? Disagree(DirectionSums direction)
    {
        if (!direction.IsSideways || direction.Sounds.Count < 2)
            return null;
        var spread = Robust.Deviation(direction.Sounds.Select(s => s.RatioDecibels(DirectionSums.LowHertz, DirectionSums.HighHertz)).ToList());
        return spread < DisagreeDecibels ? null : new()
        {
            Kind = LineUpKinds.SoundsDisagree,
            Severity = FindingSeverity.Caution,
            Size = spread,
            SizeUnit = "dB",
            Message = Invariant($"The {direction.Sounds.Count} sounds from the {direction.Direction.Name} differ by {spread:0.0} dB (standard deviation) in side over mid: they came from different places, or wind or reflections were in them."),
            Remedy = "Clap from one place, out of the wind, and line up again.",
        };
    }

    private static LineUpDirectionMeasure? Sideways(LineUpResult result, int sign) => result.Directions.FirstOrDefault(d => sign * d.Direction.Sine > 0.5);

    private static bool Sure(Estimate ratio) => ratio.IsKnown && Math.Abs(ratio.Value) > Math.Max(0.1, 2 * ratio.Uncertainty);

    private static double Square(double x) => x * x;
}
