using Athwart.Quantities;

namespace Athwart.Metering.Faults;

/// <summary>Turns what the fault meter heard into findings.</summary>
internal static class FaultDetectors
{
    public static IEnumerable<Finding> Find(TakeMeasures m) => m.Faults is not { } f
        ? []
        : [.. DamageDetector.Find(m, f), .. HumDetector.Find(m, f), .. WindDetector.Find(m, f)];
}
