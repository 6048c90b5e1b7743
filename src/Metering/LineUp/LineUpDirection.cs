using System.Globalization;

namespace Athwart.Metering.LineUp;

/// <summary>Where the sounds of one part of a line-up came from, at the height of the microphones.</summary>
/// <param name="Name">What people call it: 'front', 'left', 'right', 'rear', 'silence' or an angle.</param>
/// <param name="AzimuthDegrees">From the mid's axis, positive to the left, −180 to 180; NaN for silence.</param>
public readonly record struct LineUpDirection(string Name, double AzimuthDegrees)
{
    /// <summary>On the mid's axis.</summary>
    public static LineUpDirection Front { get; } = new("front", 0);

    /// <summary>90 degrees to the left.</summary>
    public static LineUpDirection Left { get; } = new("left", 90);

    /// <summary>90 degrees to the right.</summary>
    public static LineUpDirection Right { get; } = new("right", -90);

    /// <summary>Behind the mid.</summary>
    public static LineUpDirection Rear { get; } = new("rear", 180);

    /// <summary>Nothing is to be heard; it is where noise is measured.</summary>
    public static LineUpDirection Silence { get; } = new("silence", double.NaN);

    /// <summary>The usual order: front, left, right, rear.</summary>
    public static IReadOnlyList<LineUpDirection> UsualOrder { get; } = [Front, Left, Right, Rear];

    /// <summary>Whether nothing is to be heard.</summary>
    public bool IsSilence => double.IsNaN(AzimuthDegrees);

    /// <summary>sin of the azimuth: the figure-8's pick-up, positive to the left.</summary>
    internal double Sine => Math.Sin(AzimuthDegrees * Math.PI / 180);

    /// <summary>cos of the azimuth.</summary>
    internal double Cosine => Math.Cos(AzimuthDegrees * Math.PI / 180);

    /// <summary>Reads one word of an order.</summary>
    /// <param name="text">front, left, right, rear, silence, or degrees from −180 to 180, positive to the left.</param>
    /// <param name="direction">What was read.</param>
    /// <returns>Whether it was one of these.</returns>
    public static bool TryParse(string? text, out LineUpDirection direction)
    {
        var word = (text ?? "").Trim().ToLowerInvariant();
        foreach (var known in (ReadOnlySpan<LineUpDirection>)[Front, Left, Right, Rear, Silence])
        {
            direction = known;
            if (word.Equals(known.Name, StringComparison.Ordinal))
                return true;
        }

        var isAngle = double.TryParse(word.Replace('−', '-'), NumberStyles.Float, CultureInfo.InvariantCulture, out var degrees) && Math.Abs(degrees) <= 180;
        direction = isAngle ? new(string.Create(CultureInfo.InvariantCulture, $"{degrees:0.##}°"), degrees) : default;
        return isAngle;
    }
}
