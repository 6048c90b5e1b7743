using System.Net;
using System.Net.NetworkInformation;
using Microsoft.AspNetCore.Hosting.Server;
using Microsoft.AspNetCore.Hosting.Server.Features;

namespace Athwart.Desk;

/// <summary>Under which names the desk may be called.</summary>
internal static class DeskAddress
{
    /// <summary>The way in: the address with a token that works once.</summary>
    public static string LinkFor(DeskOptions options, WebApplication app, string token)
    {
        ArgumentNullException.ThrowIfNull(options);
        var port = PortOf(app.Services.GetRequiredService<IServer>());
        return $"http://{NameOf(options)}:{port}/open?key={token}";
    }

    /// <summary>The port that is really listened on.</summary>
    public static int PortOf(IServer server) =>
        new Uri(server.Features.Get<IServerAddressesFeature>()!.Addresses.First()).Port;

    /// <summary>The host names by which a request may call: only those that mean this machine on the address that is listened on.</summary>
    public static IReadOnlySet<string> HostNames(DeskOptions options)
    {
        ArgumentNullException.ThrowIfNull(options);
        var names = new HashSet<string>(StringComparer.OrdinalIgnoreCase) { "127.0.0.1", "localhost", "[::1]" };
        if (options.IsThisMachineOnly)
            return names;
        foreach (var address in IsAny(options.Address) ? OwnAddresses() : [options.Address])
            names.Add(Bracketed(address));
        return names;
    }

    private static string NameOf(DeskOptions options) => options.IsThisMachineOnly
        ? Bracketed(options.Address)
        : Bracketed(IsAny(options.Address) ? OwnAddresses().FirstOrDefault(a => !IPAddress.IsLoopback(a)) ?? IPAddress.Loopback : options.Address);

    private static bool IsAny(IPAddress address) => address.Equals(IPAddress.Any) || address.Equals(IPAddress.IPv6Any);

    private static string Bracketed(IPAddress address) =>
        address.AddressFamily == System.Net.Sockets.AddressFamily.InterNetworkV6 ? $"[{address}]" : address.ToString();

    private static IEnumerable<IPAddress> OwnAddresses() => NetworkInterface.GetAllNetworkInterfaces()
        .Where(n => n.OperationalStatus == OperationalStatus.Up)
        .SelectMany(n => n.GetIPProperties().UnicastAddresses)
        .Select(a => a.Address)
        .Where(a => a.AddressFamily == System.Net.Sockets.AddressFamily.InterNetwork || !a.IsIPv6LinkLocal);
}
