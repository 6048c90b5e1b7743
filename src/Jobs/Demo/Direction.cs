namespace Athwart.Jobs.Demo;

/// <summary>How strongly the two microphones hear a sound: a cardioid mid and a figure-8 side with its positive lobe to the left.</summary>
/// <param name="Mid">Gain into the mid, distance included.</param>
/// <param name="Side">Gain into the side; positive is left.</param>
internal readonly record struct Direction(double Mid, double Side)
{
    /// <summary>From an azimuth: mid = gain·(1 + cos θ)/2, side = gain·sin θ.</summary>
    public static Direction At(double azimuthDegrees, double gain = 1)
    {
        var turns = azimuthDegrees / 360;
        return new(gain * (0.5 + (0.5 * DemoMath.Cosine(turns))), gain * DemoMath.Sine(turns));
    }

    /// <summary>Something on a straight line past the rig: gain 1 when abeam, falling with distance.</summary>
    /// <param name="leftMetres">How far left of the rig's axis; negative is right.</param>
    /// <param name="aheadMetres">How far in front the line runs.</param>
    public static Direction Passing(double leftMetres, double aheadMetres)
    {
        var distance = Math.Sqrt((leftMetres * leftMetres) + (aheadMetres * aheadMetres));
        var gain = aheadMetres / distance;
        return new(gain * (0.5 + (0.5 * aheadMetres / distance)), gain * leftMetres / distance);
    }
}
